import { useMemo } from "react";
import type { Finding } from "#engine/checks";
import type { Placement } from "#engine/geometry";
import { shelfTypeOf } from "#engine/kiln";
import type { SettingRecord } from "#records";
import {
  freeSpot,
  isAllowed,
  pieceAt,
  pieceFixed,
  piecesOut,
  piecesSwapped,
  putting,
  remedyApplied,
  removing,
  shelfSpots,
  usePageState,
  type ShelfSpots,
} from "#web/state";
import type { PieceMove, Verdict } from "#web/plan";
import { useAnnounce } from "#web/ui";
import { countWords } from "../words.ts";
import { roomWords, shortName } from "./piece-words.ts";
import type { SettingModel } from "./setting-model.ts";

/** What can be done to a setting. Each is one step of undo, saved at once. */
export interface SettingCommands {
  /** `mergeable`: presses of a key that follow one another are one step. */
  readonly move: (move: PieceMove, mergeable: boolean) => void;
  readonly turn: (move: PieceMove) => void;
  readonly toShelf: (pieceId: string, shelfId: string, at: Placement) => void;
  readonly putIn: (pieceId: string, shelfId: string, at: Placement) => void;
  readonly takeOut: (pieceIds: readonly string[]) => void;
  readonly swap: (firstId: string, secondId: string) => void;
  readonly setFixed: (pieceId: string, fixed: boolean) => void;
  /** False where the remedy does not fit the setting any more. */
  readonly mend: (finding: Finding) => boolean;
  readonly setSchedule: (scheduleId: string) => void;
  readonly setStart: (day: string, startsAt: number) => void;
  /** A copy under the next free letter, to try something: its id. */
  readonly copy: () => string;
  readonly remove: () => void;
}

export function useSettingCommands(model: SettingModel): SettingCommands {
  const { studio } = usePageState();
  const announce = useAnnounce();
  return useMemo(() => {
    const { record, load, document } = model;
    const put = (label: string, next: SettingRecord, mergeKey: string | null = null): void =>
      studio.change(label, [putting("settings", next)], mergeKey);
    const name = (pieceId: string): string => shortName(model, pieceId);
    /** Which pieces are in has changed: what the proposal proved is no longer about this setting. */
    const byHand = (next: SettingRecord): SettingRecord => ({ ...next, proposal: null });
    return {
      move: (move, mergeable) =>
        put(
          `move of ${name(move.pieceId)}`,
          pieceAt(record, move.pieceId, move.shelfId, move),
          mergeable ? `move ${move.pieceId}` : null,
        ),
      turn: (move) =>
        put(`turn of ${name(move.pieceId)}`, pieceAt(record, move.pieceId, move.shelfId, move), `turn ${move.pieceId}`),
      toShelf: (pieceId, shelfId, at) => {
        put(`move of ${name(pieceId)} to another shelf`, pieceAt(record, pieceId, shelfId, at));
        announce(`${name(pieceId)} moved to shelf ${model.shelves.findIndex(({ id }) => id === shelfId) + 1}.`);
      },
      putIn: (pieceId, shelfId, at) => {
        const shape = document.shapes.find(({ id }) => id === load.pieces.get(pieceId)?.shapeId)?.name ?? "piece";
        put(`putting in of the ${shape}`, byHand(pieceAt(record, pieceId, shelfId, at)));
      },
      takeOut: (pieceIds) => {
        const what = pieceIds.length === 1 ? name(pieceIds[0]) : countWords(pieceIds.length, "piece");
        put(`taking out of ${what}`, byHand(piecesOut(record, pieceIds)));
        announce(`${what} taken out, back on the bench.`);
      },
      swap: (firstId, secondId) =>
        put(`swap of ${name(firstId)} and ${name(secondId)}`, piecesSwapped(record, firstId, secondId)),
      setFixed: (pieceId, fixed) =>
        put(`${fixed ? "keeping" : "letting go"} of ${name(pieceId)}`, pieceFixed(record, pieceId, fixed)),
      mend: (finding) => {
        const { remedy } = finding;
        if (!remedy) return false;
        const next = remedyApplied(record, load, remedy);
        if (!next) return false;
        const label =
          remedy.kind === "change-posts"
            ? "change of posts"
            : remedy.kind === "move-piece"
              ? `move of ${name(remedy.pieceId)}`
              : `taking out of ${countWords(remedy.pieceIds.length, "piece")}`;
        put(label, remedy.kind === "take-out" ? byHand(next) : next);
        announce(`Done: ${label}. Undo puts it back.`);
        return true;
      },
      setSchedule: (scheduleId) => put("change of schedule", { ...record, scheduleId }),
      setStart: (day, startsAt) => put("change of start", { ...record, day, startsAt }, "start"),
      copy: () => {
        const letter = freeLetter(document.settings.map((each) => each.name));
        const id = freeId(document.settings, `${record.kilnId}-${letter.toLowerCase()}`);
        studio.change(`copy as setting ${letter}`, [
          putting("settings", { ...record, id, name: letter, setting: { ...record.setting } }),
        ]);
        announce(`Setting ${letter} is a copy of ${record.name}.`);
        return id;
      },
      remove: () => studio.change(`removal of setting ${record.name}`, [removing("settings", record.id)]),
    };
  }, [model, studio, announce]);
}

/** Nothing is forbidden: what is wrong then shows among the findings. */
export const anywhere = (): Verdict => ({ legal: true, reason: null });

/** May a piece stand at a spot, and if not why: asked for every step of a pointer. */
export function verdictsOf(model: SettingModel): (at: PieceMove) => Verdict {
  const known = new Map<string, ShelfSpots>();
  return (at) => {
    const key = `${at.pieceId} ${at.shelfId}`;
    let spots = known.get(key);
    if (!spots) {
      const shelf = model.load.setting.shelves.find(({ id }) => id === at.shelfId);
      if (!shelf) return { legal: false, reason: "That shelf is not there any more." };
      spots = shelfSpots(model.load, at.pieceId, shelf);
      known.set(key, spots);
    }
    if (spots.isFree(at)) return { legal: true, reason: null };
    const room = spots.roomAt(at);
    return isAllowed(room) ? { legal: true, reason: null } : { legal: false, reason: roomWords(model, room) };
  };
}

/** Where on each shelf a piece could go. */
export interface ShelfRoom {
  readonly shelfId: string;
  readonly number: number;
  readonly isHalf: boolean;
  readonly spot: Placement | null;
}

/** Every shelf of the setting with the free spot nearest to where the piece is now. */
export function roomOnShelves(model: SettingModel, pieceId: string): readonly ShelfRoom[] {
  const now = model.record.setting.pieces.find((each) => each.pieceId === pieceId);
  return model.shelves.map((shelf, index) => {
    const wanted =
      now && now.shelfId === shelf.id ? now : { x: now?.x ?? shelf.x, y: now?.y ?? shelf.y, angle: now?.angle ?? 0 };
    return {
      shelfId: shelf.id,
      number: index + 1,
      isHalf: shelfTypeOf(model.load, shelf).outline.kind === "half-disc",
      spot: freeSpot(model.load, pieceId, shelf, wanted),
    };
  });
}

/** A, B … Z, then A2, B2 …: the first nobody has. */
function freeLetter(names: readonly string[]): string {
  for (let round = 1; ; round += 1) {
    for (let letter = 0; letter < 26; letter += 1) {
      const name = String.fromCodePoint(65 + letter) + (round === 1 ? "" : String(round));
      if (!names.includes(name)) return name;
    }
  }
}

function freeId(records: readonly { readonly id: string }[], stem: string): string {
  const used = new Set(records.map(({ id }) => id));
  let id = stem;
  for (let number = 2; used.has(id); number += 1) id = `${stem}-${number}`;
  return id;
}
