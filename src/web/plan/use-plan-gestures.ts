import { useRef, useState, type PointerEvent, type RefObject } from "react";
import type { Load, PlacedPiece } from "#engine/kiln";
import { fromWindow, toKiln, toScreen, type PlanFrame, type ScreenPoint } from "./frame.ts";
import { nearestPiece } from "./pick.ts";
import { settle, type PieceMove, type Settled, type VerdictAt } from "./settle.ts";

/** How a piece was moved. */
export type MoveBy = "drag" | "tap" | "keys";

/** A piece on its way: where it would stand, and where the pointer is. */
export interface Drag extends Settled {
  readonly pointer: ScreenPoint;
  /** Held by the pointer (true), or a preview under it (false). */
  readonly isHeld: boolean;
}

export interface PlanGestureOptions {
  readonly svg: RefObject<SVGSVGElement | null>;
  readonly frame: PlanFrame;
  readonly load: Load;
  readonly shelfId: string;
  readonly pieces: readonly PlacedPiece[];
  readonly picked: PlacedPiece | null;
  /** A piece from the bench or another shelf that waits for its spot. */
  readonly placing: string | null;
  /** [CSS px] */
  readonly pickWithin: number;
  readonly canMove: boolean;
  readonly verdictAt: VerdictAt;
  readonly onSelect: (pieceId: string | null) => void;
  readonly onMove: (move: PieceMove, by: MoveBy) => void;
  readonly onRefused: (settled: Settled) => void;
}

interface Press {
  readonly pointerId: number;
  readonly clientX: number;
  readonly clientY: number;
  readonly piece: PlacedPiece | null;
  readonly from: { readonly x: number; readonly y: number };
}

/** Farther than this it is a drag, not a press [CSS px]. */
const dragAfter = 4;
/** How far from the pointer a legal spot is sought [m]. */
const settleWithin = 0.045;

/**
 * Mouse and pen: press picks, drag moves. Touch: tap picks, a second tap puts the picked piece there (a finger's drag
 * scrolls the page). Every drag has its tap and its keys.
 */
export function usePlanGestures(options: PlanGestureOptions) {
  const { svg, frame, load, shelfId, pieces, picked, placing, canMove, verdictAt } = options;
  const press = useRef<Press | null>(null);
  const [drag, setDrag] = useState<Drag | null>(null);
  const [refused, setRefused] = useState<Drag | null>(null);

  const screenPoint = (event: PointerEvent): ScreenPoint => {
    const matrix = svg.current?.getScreenCTM();
    return matrix ? fromWindow(matrix, event.clientX, event.clientY) : { x: 0, y: 0 };
  };
  const settled = (pieceId: string, x: number, y: number, angle: number): Settled =>
    settle({ pieceId, shelfId, x, y, angle }, verdictAt, settleWithin);
  const put = (result: Settled, by: MoveBy, pointer: ScreenPoint): void => {
    if (result.verdict.legal) options.onMove(result.at, by);
    else {
      setRefused({ ...result, pointer, isHeld: false });
      options.onRefused(result);
    }
  };

  const onPointerDown = (event: PointerEvent<HTMLElement>): void => {
    if (event.button !== 0 || !event.isPrimary) return;
    setRefused(null);
    const from = toKiln(frame, screenPoint(event));
    const hit = placing === null ? nearestPiece(load, pieces, from.x, from.y, options.pickWithin / frame.scale) : null;
    press.current = {
      pointerId: event.pointerId,
      clientX: event.clientX,
      clientY: event.clientY,
      piece: hit?.piece ?? null,
      from,
    };
    if (event.pointerType === "touch" || !hit) return;
    options.onSelect(hit.piece.pieceId);
    if (canMove) event.currentTarget.setPointerCapture(event.pointerId);
  };

  const onPointerMove = (event: PointerEvent<HTMLElement>): void => {
    if (event.pointerType === "touch") return;
    const pointer = screenPoint(event);
    const at = toKiln(frame, pointer);
    if (placing !== null) {
      setDrag({ ...settled(placing, at.x, at.y, 0), pointer, isHeld: false });
      return;
    }
    const start = press.current;
    if (!start?.piece || !canMove) return;
    if (!drag && Math.hypot(event.clientX - start.clientX, event.clientY - start.clientY) < dragAfter) return;
    const { piece, from } = start;
    setDrag({
      ...settled(piece.pieceId, piece.x + at.x - from.x, piece.y + at.y - from.y, piece.angle),
      pointer,
      isHeld: true,
    });
  };

  const onPointerUp = (event: PointerEvent<HTMLElement>): void => {
    const start = press.current;
    if (!start || start.pointerId !== event.pointerId) return;
    press.current = null;
    const pointer = screenPoint(event);
    const at = toKiln(frame, pointer);
    setDrag(null);
    if (placing !== null) return put(settled(placing, at.x, at.y, drag?.at.angle ?? 0), "tap", pointer);
    if (drag?.isHeld) return put(drag, "drag", pointer);
    if (event.pointerType !== "touch") {
      if (!start.piece) options.onSelect(null);
      return;
    }
    const under = nearestPiece(load, pieces, at.x, at.y, 0)?.piece ?? null;
    if (picked && canMove && under === null) put(settled(picked.pieceId, at.x, at.y, picked.angle), "tap", pointer);
    else options.onSelect((under ?? start.piece)?.pieceId ?? null);
  };

  const cancel = (): void => {
    press.current = null;
    setDrag(null);
    setRefused(null);
  };

  /** Shows a reason beside a spot until the next act: what stopped a step by the keyboard. */
  const refuse = (result: Settled): void => {
    const pointer = toScreen(frame, result.at.x, result.at.y);
    setRefused(result.verdict.legal ? null : { ...result, pointer, isHeld: false });
  };

  return {
    drag,
    refused,
    refuse,
    cancel,
    handlers: {
      onPointerDown,
      onPointerMove,
      onPointerUp,
      onPointerCancel: cancel,
      onPointerLeave: () => {
        if (!press.current) setDrag(null);
      },
    },
  };
}
