import { useEffect, useState } from "react";
import type { Load } from "#engine/kiln";
import type { PieceView } from "#engine/radiation";
import type { LookAnswer, LookRequest } from "./look-messages.ts";

type Asked = (LookRequest & { readonly done: (answer: LookAnswer) => void }) | null;

/**
 * One worker for the page. It answers one question at a time; of those that wait, only the newest of each kind is
 * kept, since a load that has changed again is of no interest.
 */
class Looker {
  readonly #worker = new Worker(new URL("./look-worker.ts", import.meta.url), { type: "module" });
  #underWay: Asked = null;
  #waiting: { exposure: Asked; view: Asked } = { exposure: null, view: null };
  #lastId = 0;

  constructor() {
    this.#worker.addEventListener("message", (event: MessageEvent<LookAnswer>) => {
      this.#underWay?.done(event.data);
      this.#next();
    });
    // A load that cannot be looked into leaves its question open; the next one is asked.
    this.#worker.addEventListener("error", () => this.#next());
  }

  ask(ask: "exposure" | "view", load: Load, pieceId: string, done: (answer: LookAnswer) => void): () => void {
    this.#lastId += 1;
    const id = this.#lastId;
    this.#waiting[ask] = ask === "view" ? { ask, id, load, pieceId, done } : { ask, id, load, done };
    if (!this.#underWay) this.#next();
    return () => {
      if (this.#waiting[ask]?.id === id) this.#waiting[ask] = null;
    };
  }

  #next(): void {
    // The picked piece's picture first: someone looks at its place.
    const next = this.#waiting.view ?? this.#waiting.exposure;
    this.#underWay = next;
    if (!next) return;
    this.#waiting[next.ask] = null;
    const { done: _, ...request } = next;
    // A worker has no origin to name; the rule takes it for a window.
    // oxlint-disable-next-line unicorn/require-post-message-target-origin
    this.#worker.postMessage(request);
  }
}

let looker: Looker | null = null;
const theLooker = (): Looker => (looker ??= new Looker());

/**
 * Share of each piece's view that falls on elements and wall [0..1]; of an earlier load for a moment after a change,
 * null before the first answer and without a load.
 */
export function useExposures(load: Load | null): ReadonlyMap<string, number> | null {
  const [found, setFound] = useState<ReadonlyMap<string, number> | null>(null);
  useEffect(() => {
    if (!load) return;
    return theLooker().ask("exposure", load, "", (answer) => {
      if (answer.ask === "exposure") setFound(new Map(answer.exposures.map((each) => [each.pieceId, each.exposure])));
    });
  }, [load]);
  return found;
}

/** What a piece sees; null until it is traced, and while another piece's picture is the last one. */
export function usePieceView(load: Load, pieceId: string | null): PieceView | null {
  const [view, setView] = useState<PieceView | null>(null);
  useEffect(() => {
    if (pieceId === null || !load.setting.pieces.some((piece) => piece.pieceId === pieceId)) return;
    return theLooker().ask("view", load, pieceId, (answer) => {
      if (answer.ask === "view") setView(answer.view);
    });
  }, [load, pieceId]);
  return view?.pieceId === pieceId ? view : null;
}
