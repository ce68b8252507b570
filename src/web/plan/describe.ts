import { distanceBetweenFootprints, placeFootprint, roomInside, type Placement } from "#engine/geometry";
import { footprintOf, shapeOf, type Load } from "#engine/kiln";
import { formatLength, giveOrTakeWords, offsetWords, type UnitPreference } from "#words";
import type { PieceHeat } from "#work";

export interface PieceWords {
  readonly load: Load;
  readonly units: UnitPreference;
  readonly numbers: ReadonlyMap<string, number>;
  readonly heats: ReadonlyMap<string, PieceHeat> | null;
  /** Whose it is. */
  readonly partyName: ((pieceId: string) => string) | undefined;
}

/** A piece in a few words: "No. 7, mug, Ivy". */
export function nameOf(words: PieceWords, pieceId: string): string {
  const party = words.partyName?.(pieceId);
  const number = words.numbers.get(pieceId);
  return [
    number === undefined ? null : `No.\u00a0${number}`,
    shapeOf(words.load, pieceId).name,
    party === undefined || party === "" ? null : party,
  ]
    .filter((part) => part !== null)
    .join(", ");
}

/** What a screen reader says of a piece: "No. 7, mug, Ivy, 12 mm to the wall, ¼ cone cold, give or take ½". */
export function spokenPiece(words: PieceWords, pieceId: string, shelfId: string, at: Placement): string {
  const heat = words.heats?.get(pieceId);
  return [
    nameOf(words, pieceId),
    nearestThing(words, pieceId, shelfId, at),
    heat ? `${offsetWords(heat.offset)}, ${giveOrTakeWords(heat.giveOrTake)}` : null,
  ]
    .filter((part) => part !== null)
    .join(", ");
}

/** What stands nearest: the wall or a numbered neighbour, with the gap. */
function nearestThing(words: PieceWords, pieceId: string, shelfId: string, at: Placement): string {
  const { load, numbers, units } = words;
  const footprint = placeFootprint(footprintOf(shapeOf(load, pieceId)), at);
  let gap = roomInside(load.kiln.chamber.plan, footprint);
  let thing = "the wall";
  for (const other of load.setting.pieces) {
    if (other.pieceId === pieceId || other.shelfId !== shelfId) continue;
    const apart = distanceBetweenFootprints(
      footprint,
      placeFootprint(footprintOf(shapeOf(load, other.pieceId)), other),
    );
    if (apart < gap) [gap, thing] = [apart, `no.\u00a0${numbers.get(other.pieceId) ?? "?"}`];
  }
  if (gap < 0) return thing === "the wall" ? "into the wall" : `on top of ${thing}`;
  return `${formatLength(gap, units)} to ${thing}`;
}
