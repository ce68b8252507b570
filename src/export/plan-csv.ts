import { heightOf, known, liftOf, shapeOf, shelvesFromBottom } from "#engine/kiln";
import { coneDigits } from "#words";
import type { Plan } from "./plan.ts";

const columns = [
  "shelf",
  "number",
  "piece",
  "party",
  "promised",
  "state",
  "x mm",
  "y mm",
  "turned deg",
  "shelf top mm",
  "stilt mm",
  "height mm",
  "weight kg",
  "wanted",
  "cones from wanted",
  "give or take cones",
  "chance as wanted",
] as const;

/**
 * The plan as a table: one line a piece, by shelf from the bottom and number.
 *
 * Places are from the kiln's middle, x to its right, y to its back. Cones are text ("cone 06"), since a table program
 * would read 06 as 6. Forecast columns are in quarters of a cone and tenths, as everywhere, and empty without a forecast.
 *
 * Source: [rfc-4180]: CRLF at line ends, quotes doubled. Text that starts like a formula gets an apostrophe before it.
 */
export function planCsv(plan: Plan): string {
  const { load, numbers } = plan;
  const shelves = shelvesFromBottom(load.setting);
  const placed = [...load.setting.pieces].sort((a, b) => {
    const [first, second] = [numbers.get(a.pieceId), numbers.get(b.pieceId)];
    return (first?.shelf ?? 0) - (second?.shelf ?? 0) || (first?.number ?? 0) - (second?.number ?? 0);
  });
  const lines = placed.map(({ pieceId, shelfId, x, y, angle }) => {
    const piece = known(load.pieces, pieceId, "piece");
    const shape = shapeOf(load, pieceId);
    const heat = plan.forecast?.heats.get(pieceId);
    return [
      numbers.get(pieceId)?.shelf ?? "",
      numbers.get(pieceId)?.number ?? "",
      text(shape.name),
      text(plan.partyOf(pieceId)),
      plan.promisedOf(pieceId),
      piece.state,
      millimetres(x),
      millimetres(y),
      Math.round(((((angle * 180) / Math.PI) % 360) + 360) % 360) % 360,
      millimetres(shelves.find(({ id }) => id === shelfId)?.z ?? 0),
      millimetres(liftOf(load, piece)),
      millimetres(heightOf(shape)),
      shape.mass.toFixed(2),
      `cone ${coneDigits(load.firingClass.cone)}`,
      heat ? quarters(heat.offset) : "",
      heat ? Math.max(quarters(heat.giveOrTake), 0.25) : "",
      heat ? Math.round(heat.chanceWanted * 10) / 10 : "",
    ];
  });
  return [columns, ...lines].map((line) => `${line.map((cell) => quoted(String(cell))).join(",")}\r\n`).join("");
}

/** Whole millimetres, never "-0". */
const millimetres = (length: number): number => Math.round(length * 1000) + 0;
const quarters = (cones: number): number => Math.round(cones * 4) / 4 + 0;

const text = (name: string): string => (/^[=+\-@\t\r]/.test(name) ? `'${name}` : name);

function quoted(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
