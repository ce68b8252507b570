import type { Metres, Radians } from "#engine/units";

/** Where a piece would stand. */
export interface PieceMove {
  readonly pieceId: string;
  readonly shelfId: string;
  readonly x: Metres;
  readonly y: Metres;
  readonly angle: Radians;
}

/** Whether a piece may stand there; if not, why, in words for the user. */
export interface Verdict {
  readonly legal: boolean;
  readonly reason: string | null;
}

/** Asked many times while a piece is dragged: it should answer within about 0.1 ms. */
export type VerdictAt = (at: PieceMove) => Verdict;

export interface Settled {
  readonly at: PieceMove;
  readonly verdict: Verdict;
}

const directions = 24;
const rings = 10;
const halvings = 7;

/**
 * The legal spot nearest to where the pointer is, within `reach`; the wanted spot with the reason if there is none.
 *
 * Rings about the wanted spot are tried outward; from the first legal spots the way back is halved, so that a piece
 * comes to lie against what stopped it, not a ring away from it.
 */
export function settle(want: PieceMove, verdictAt: VerdictAt, reach: Metres): Settled {
  const verdict = verdictAt(want);
  if (verdict.legal) return { at: want, verdict };
  for (let ring = 1; ring <= rings; ring++) {
    let best: PieceMove | null = null;
    let least = Infinity;
    for (let i = 0; i < directions; i++) {
      const azimuth = (2 * Math.PI * i) / directions;
      const radius = (reach * ring) / rings;
      const spot = { ...want, x: want.x + radius * Math.cos(azimuth), y: want.y + radius * Math.sin(azimuth) };
      if (!verdictAt(spot).legal) continue;
      const near = towards(spot, want, verdictAt);
      const distance = Math.hypot(near.x - want.x, near.y - want.y);
      if (distance < least) [best, least] = [near, distance];
    }
    if (best) return { at: best, verdict: { legal: true, reason: null } };
  }
  return { at: want, verdict };
}

/** As far as a piece can go from the legal `from` straight towards `to`. */
function towards(from: PieceMove, to: PieceMove, verdictAt: VerdictAt): PieceMove {
  let kept = from;
  let [low, high] = [0, 1];
  for (let i = 0; i < halvings; i++) {
    const t = (low + high) / 2;
    const spot = { ...from, x: from.x + t * (to.x - from.x), y: from.y + t * (to.y - from.y) };
    if (verdictAt(spot).legal) {
      low = t;
      kept = spot;
    } else high = t;
  }
  return kept;
}

/**
 * One step by the keyboard: the whole step where that is legal, else as far as the piece can go, with the reason.
 *
 * A piece that stands where it may not (placed before a rule was changed) moves freely: else it could never leave.
 */
export function step(from: PieceMove, to: PieceMove, verdictAt: VerdictAt): Settled {
  const verdict = verdictAt(to);
  if (verdict.legal || !verdictAt(from).legal) return { at: to, verdict };
  return { at: towards(from, to, verdictAt), verdict };
}
