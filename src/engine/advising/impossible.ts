import { stopIfCancelled, type RunControl } from "#base";
import type { Advice, AdviceRequest, AdviserRun, MoveGain } from "./advice.ts";
import { fewestToLeaveOut, standingOf, type PieceWish } from "./room-between.ts";
import { withEnd, type ScheduleEnd } from "./schedule-end.ts";

/** Moves that are computed at most. */
const mostMoves = 5;

/**
 * Says why no schedule does, from the run that comes nearest: how much no target can mend, which pieces set it, the
 * fewest to leave out, and what each offered move would change.
 *
 * @param run  computes one more firing: the proof's other leg, at a clearly different target
 */
export async function whyImpossible(
  request: AdviceRequest,
  control: RunControl,
  nearest: AdviserRun,
  runs: readonly AdviserRun[],
  run: (end: ScheduleEnd) => Promise<AdviserRun>,
): Promise<Advice> {
  const { standing } = nearest;
  // Up or down to where one side is satisfied: the sum of both must still be above 0 there.
  const aside = standing.excess > 0 ? -Math.max(standing.over, 4) : -5;
  const other = await run({ ...nearest.end, target: nearest.end.target + aside });
  const moves: MoveGain[] = [];
  for (const move of (request.moves?.(standing) ?? []).slice(0, mostMoves)) {
    stopIfCancelled(control);
    const outcome = await move.forecastFor(withEnd(request.schedule, nearest.end));
    const kept = request.wishes.filter(({ pieceId }) => !move.takesOut.includes(pieceId));
    const { excess } = standingOf(outcome.pieces, kept, request.margin);
    const { id, pieceIds, takesOut } = move;
    moves.push({ move: { id, pieceIds, takesOut }, excess, gain: standing.excess - excess });
  }
  const wishes = new Map<string, PieceWish>(request.wishes.map((wish) => [wish.pieceId, wish]));
  const pieces = nearest.outcome.pieces.filter(({ pieceId }) => wishes.has(pieceId));
  return {
    kind: "impossible",
    schedule: withEnd(request.schedule, nearest.end),
    best: nearest,
    excess: standing.excess,
    excessAtOtherTarget: other.standing.excess,
    spread: Math.max(...pieces.map(({ hottest }) => hottest)) - Math.min(...pieces.map(({ coldest }) => coldest)),
    allowed: wishes.get(standing.hottestPiece)!.most - wishes.get(standing.coldestPiece)!.least,
    leaveOut: standing.excess > 0 ? fewestToLeaveOut(standing) : [],
    moves: moves.toSorted((a, b) => worth(b) - worth(a)),
    bound: standing.excess > 0 ? "spread" : "kiln",
    runs,
  };
}

/** Gain for each piece that has to wait for another firing [K]. */
function worth({ gain, move }: MoveGain): number {
  return gain / Math.max(1, move.takesOut.length);
}
