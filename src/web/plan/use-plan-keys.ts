import type { KeyboardEvent } from "react";
import type { PlacedPiece } from "#engine/kiln";
import { step, type PieceMove, type Settled, type VerdictAt } from "./settle.ts";

export interface PlanKeyOptions {
  readonly shelfId: string;
  /** In number order. */
  readonly pieces: readonly PlacedPiece[];
  readonly picked: PlacedPiece | null;
  readonly canMove: boolean;
  readonly verdictAt: VerdictAt;
  readonly onSelect: (pieceId: string | null) => void;
  readonly onStep: (settled: Settled) => void;
  readonly onTurn: (settled: Settled) => void;
  readonly onMoveTo: ((pieceId: string) => void) | undefined;
  readonly onSwap: ((pieceId: string) => void) | undefined;
  readonly onTakeOut: ((pieceId: string) => void) | undefined;
  readonly onShelf: ((step: 1 | -1) => void) | undefined;
  readonly onHelp: (() => void) | undefined;
  readonly onEscape: () => void;
}

const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

const turnStep = Math.PI / 12;

/** Arrow step [m]: 5 mm, with Shift 1 mm, with Alt 25 mm. */
export function arrowStep(event: Pick<KeyboardEvent, "shiftKey" | "altKey">): number {
  return event.shiftKey ? 0.001 : event.altKey ? 0.025 : 0.005;
}

/**
 * Keys of the plan. N and P choose a piece by number, arrows move the one that is picked (or pick the first), R turns
 * it 15°, M, S and Delete send it elsewhere, [ and ] change the shelf, Esc lets go, ? lists the keys.
 *
 * @returns true if the key was used
 */
export function onPlanKey(event: KeyboardEvent, options: PlanKeyOptions): boolean {
  if (event.ctrlKey || event.metaKey) return false;
  const { picked } = options;
  const arrow = arrows[event.key];
  if (arrow) {
    if (picked && options.canMove) move(picked, arrow, arrowStep(event), options);
    else choose(options, arrow[0] + -arrow[1] > 0 ? 1 : -1);
    return true;
  }
  switch (event.key.length === 1 ? event.key.toLowerCase() : event.key) {
    case "n":
      choose(options, 1);
      return true;
    case "p":
      choose(options, -1);
      return true;
    case "Home":
      options.onSelect(options.pieces[0]?.pieceId ?? null);
      return true;
    case "End":
      options.onSelect(options.pieces.at(-1)?.pieceId ?? null);
      return true;
    case "r":
      if (picked && options.canMove) turn(picked, event.shiftKey ? -turnStep : turnStep, options);
      return picked !== null;
    case "m":
      return call(options.onMoveTo, picked);
    case "s":
      return call(options.onSwap, picked);
    case "Delete":
    case "Backspace":
      return call(options.onTakeOut, picked);
    case "[":
    case "PageDown":
      options.onShelf?.(-1);
      return options.onShelf !== undefined;
    case "]":
    case "PageUp":
      options.onShelf?.(1);
      return options.onShelf !== undefined;
    case "Escape":
      options.onEscape();
      return true;
    case "?":
      options.onHelp?.();
      return options.onHelp !== undefined;
    default:
      return false;
  }
}

function call(action: ((pieceId: string) => void) | undefined, picked: PlacedPiece | null): boolean {
  if (!action || !picked) return false;
  action(picked.pieceId);
  return true;
}

function choose({ pieces, picked, onSelect }: PlanKeyOptions, by: 1 | -1): void {
  if (pieces.length === 0) return;
  const at = picked ? pieces.findIndex(({ pieceId }) => pieceId === picked.pieceId) : -1;
  const next = at < 0 ? (by > 0 ? 0 : pieces.length - 1) : (at + by + pieces.length) % pieces.length;
  onSelect(pieces[next].pieceId);
}

const placeOf = ({ pieceId, x, y, angle }: PlacedPiece, shelfId: string): PieceMove => ({
  pieceId,
  shelfId,
  x,
  y,
  angle,
});

function move(picked: PlacedPiece, [dx, dy]: readonly [number, number], by: number, options: PlanKeyOptions): void {
  const from = placeOf(picked, options.shelfId);
  options.onStep(step(from, { ...from, x: from.x + dx * by, y: from.y + dy * by }, options.verdictAt));
}

function turn(picked: PlacedPiece, by: number, options: PlanKeyOptions): void {
  const from = placeOf(picked, options.shelfId);
  const to = { ...from, angle: from.angle + by };
  const verdict = options.verdictAt(to);
  options.onTurn({ at: verdict.legal || !options.verdictAt(from).legal ? to : from, verdict });
}
