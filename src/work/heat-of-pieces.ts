import type { Forecast } from "#engine/firing";
import { conePositionOf } from "#engine/heatwork";
import type { FiringClass, Setting } from "#engine/kiln";
import { couldGoEitherWay, heatClassOf, outsideRange, type HeatClass } from "./heat-class.ts";

/** A piece's forecast against what its class wants, in cones; below 0 is cold. */
export interface PieceHeat {
  readonly pieceId: string;
  /** Of the piece's mean. */
  readonly offset: number;
  /** Of its coldest and its hottest point. */
  readonly coldest: number;
  readonly hottest: number;
  /** Half width of the band that holds 8 firings in 10 [cones]. */
  readonly giveOrTake: number;
  readonly chanceWanted: number;
  readonly heat: HeatClass;
  readonly outside: "cold" | "hot" | null;
  /** As likely wanted as not. */
  readonly eitherWay: boolean;
}

/** Every forecast piece by its id. @throws RangeError if the class's cone is not written like a cone */
export function heatOfPieces(forecast: Forecast, firingClass: FiringClass): ReadonlyMap<string, PieceHeat> {
  const wanted = conePositionOf(firingClass.cone);
  return new Map(
    forecast.pieces.map(({ pieceId, heatwork, giveOrTake, chanceWanted }) => {
      const offset = heatwork.mean - wanted;
      const heat: PieceHeat = {
        pieceId,
        offset,
        coldest: heatwork.coldest - wanted,
        hottest: heatwork.hottest - wanted,
        giveOrTake,
        chanceWanted,
        heat: heatClassOf(offset),
        outside: outsideRange(offset, firingClass.tolerance),
        eitherWay: couldGoEitherWay(chanceWanted),
      };
      return [pieceId, heat];
    }),
  );
}

/** The pieces of each shelf that came out coldest and hottest by their means [cones]; shelves without a forecast piece are left out. */
export function heatOfShelves(
  setting: Setting,
  pieces: ReadonlyMap<string, PieceHeat>,
): ReadonlyMap<string, { readonly coldest: PieceHeat; readonly hottest: PieceHeat }> {
  const shelves = new Map<string, { coldest: PieceHeat; hottest: PieceHeat }>();
  for (const { pieceId, shelfId } of setting.pieces) {
    const piece = pieces.get(pieceId);
    if (!piece) continue;
    const shelf = shelves.get(shelfId);
    if (!shelf) shelves.set(shelfId, { coldest: piece, hottest: piece });
    else {
      if (piece.offset < shelf.coldest.offset) shelf.coldest = piece;
      if (piece.offset > shelf.hottest.offset) shelf.hottest = piece;
    }
  }
  return shelves;
}

/** Ends of a cone axis about the wanted cone [cones]. */
export interface ConeRange {
  readonly from: number;
  readonly to: number;
}

/**
 * One axis for every picture of the same forecast: wide enough for the wanted range, all pieces and the bands of the
 * coldest and hottest, to the next half cone, and never narrower than one cone and a half either way.
 */
export function coneRange(pieces: Iterable<PieceHeat>, tolerance: FiringClass["tolerance"]): ConeRange {
  let from = Math.min(-1.5, tolerance.colder);
  let to = Math.max(1.5, tolerance.hotter);
  for (const { offset, giveOrTake } of pieces) {
    from = Math.min(from, offset - giveOrTake);
    to = Math.max(to, offset + giveOrTake);
  }
  return { from: Math.floor(from * 2) / 2, to: Math.ceil(to * 2) / 2 };
}
