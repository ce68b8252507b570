import { shapeOf } from "#engine/kiln";
import type { InTheWay, SpotRoom } from "#web/state";
import { formatAgainst, formatLength } from "#words";
import { sentence } from "../words.ts";
import type { SettingModel } from "./setting-model.ts";

type Named = Pick<SettingModel, "load" | "numbers" | "partyName">;

/** "no. 7", the name undo and messages use. */
export function shortName({ numbers }: Pick<SettingModel, "numbers">, pieceId: string): string {
  const number = numbers.get(pieceId);
  return number ? `no.\u00a0${number.number}` : "a piece";
}

/** "No. 11, tumbler, Tomas". */
export function longName(model: Named, pieceId: string): string {
  const party = model.partyName(pieceId);
  const shape = shapeOf(model.load, pieceId).name;
  return sentence([shortName(model, pieceId), shape, party].filter((part) => part !== "").join(", "));
}

/** "tumbler, shelf 1, no. 11". */
export function placedName(model: Named, pieceId: string): string {
  const number = model.numbers.get(pieceId);
  const shape = shapeOf(model.load, pieceId).name;
  return number ? `${shape}, shelf ${number.shelf}, no.\u00a0${number.number}` : shape;
}

/** Why a spot is not allowed, in one short sentence. */
export function roomWords(model: SettingModel, room: SpotRoom): string {
  const wanted = room.distance - room.spare;
  const gap =
    room.distance < 0
      ? ""
      : `${formatAgainst(room.distance, wanted, model.units)}; it needs ${formatLength(wanted, model.units)}.`;
  switch (room.nearest.kind) {
    case "piece":
      return room.distance < 0
        ? `It would stand in ${nameOf(model, room.nearest)}.`
        : `From ${nameOf(model, room.nearest)}: ${gap}`;
    case "post":
      return room.distance < 0 ? "A post stands there." : `From the post: ${gap}`;
    case "cones":
      return room.distance < 0 ? "The cone pack stands there." : `From the cone pack: ${gap}`;
    case "edge":
      return "Its foot would hang over the shelf edge.";
    case "wall":
      return room.distance < 0 ? "It would stand in the wall." : `From the wall: ${gap}`;
    case "sensor":
      return `From the sensor: ${gap}`;
    case "height":
      return room.distance < 0
        ? `It is ${formatLength(-room.distance, model.units)} too tall for this layer.`
        : `Above it: ${gap}`;
  }
}

function nameOf(model: SettingModel, thing: Extract<InTheWay, { kind: "piece" }>): string {
  return shortName(model, thing.pieceId);
}
