import { coneNames, conePositionOf, kineticsOf, rampEnd, type ConePosition } from "#engine/heatwork";
import type { Kelvin, KelvinDifference } from "#engine/units";

/** What every piece may get: its coldest point at least, its hottest point at most [cones]. */
export interface PieceWish {
  readonly pieceId: string;
  readonly least: ConePosition;
  readonly most: ConePosition;
}

/** What a computed firing gave one piece. */
export interface PieceOutcome {
  readonly pieceId: string;
  readonly coldest: ConePosition;
  readonly hottest: ConePosition;
}

/** What one piece lacks and has too much of, as a shift of the whole firing's temperature [K]; below 0 it has room. */
export interface PieceNeed {
  readonly pieceId: string;
  /** Shift up that would just give its coldest point enough. */
  readonly lacks: KelvinDifference;
  /** Shift down that would just spare its hottest point. */
  readonly over: KelvinDifference;
}

/**
 * How a firing stands to the wishes. A higher target lifts all pieces about alike, so a target that suits every piece
 * exists about when lacks + over <= 0: that sum is what only a narrower spread can mend.
 */
export interface Standing {
  readonly lacks: KelvinDifference;
  readonly over: KelvinDifference;
  /** lacks + over [K]. */
  readonly excess: KelvinDifference;
  /** The pieces that set the two. */
  readonly coldestPiece: string;
  readonly hottestPiece: string;
  readonly needs: readonly PieceNeed[];
}

/**
 * Measures a firing against the wishes.
 *
 * @param margin  kept free inside every piece's range [cones], >= 0
 * @throws RangeError if a wish has no outcome or there are none
 */
export function standingOf(outcomes: readonly PieceOutcome[], wishes: readonly PieceWish[], margin: number): Standing {
  if (wishes.length === 0) throw new RangeError("wishes is empty; expected one or more pieces");
  const byId = new Map(outcomes.map((outcome) => [outcome.pieceId, outcome]));
  const needs = wishes.map(({ pieceId, least, most }): PieceNeed => {
    const outcome = byId.get(pieceId);
    if (!outcome) throw new RangeError(`piece "${pieceId}" is wished for but not in the forecast`);
    // Where the margins leave nothing between them, the middle of the range is wanted.
    const kept = Math.min(margin, (most - least) / 2);
    return {
      pieceId,
      lacks: temperatureOf(least + kept) - temperatureOf(outcome.coldest),
      over: temperatureOf(outcome.hottest) - temperatureOf(most - kept),
    };
  });
  const cold = needs.reduce((worst, need) => (need.lacks > worst.lacks ? need : worst));
  const hot = needs.reduce((worst, need) => (need.over > worst.over ? need : worst));
  return {
    lacks: cold.lacks,
    over: hot.over,
    excess: cold.lacks + hot.over,
    coldestPiece: cold.pieceId,
    hottestPiece: hot.pieceId,
    needs,
  };
}

const scale: readonly (readonly [ConePosition, Kelvin])[] = coneNames.map((cone) => [
  conePositionOf(cone),
  rampEnd(kineticsOf(cone), 60 / 3600),
]);

/** Peak of a 60 K/h ramp that gives a heat work [K]: cones are unevenly far apart, temperatures add up. */
export function temperatureOf(position: ConePosition): Kelvin {
  const next = scale.findIndex(([place]) => place > position);
  const upper = next < 0 ? scale.length - 1 : Math.max(next, 1);
  const [[lowPlace, low], [highPlace, high]] = [scale[upper - 1], scale[upper]];
  return low + ((position - lowPlace) / (highPlace - lowPlace)) * (high - low);
}

/** The fewest pieces to leave out so that one target suits the rest, coldest and hottest first. */
export function fewestToLeaveOut(standing: Standing): readonly string[] {
  const needs = standing.needs.toSorted((a, b) => a.lacks - b.lacks);
  let best: readonly string[] = needs.map(({ pieceId }) => pieceId);
  // A shift suits a piece if lacks <= shift <= -over; the best shift may be taken at some piece's lower end.
  for (const { lacks: shift } of needs) {
    const out = needs.filter(({ lacks, over }) => lacks > shift || over > -shift).map(({ pieceId }) => pieceId);
    if (out.length < best.length) best = out;
  }
  return best;
}
