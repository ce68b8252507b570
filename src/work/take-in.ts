import type { PartyRecord, PieceRecord, ShapeRecord, StudioDocument } from "#records";
import { sizeOf, type Intake } from "./intake.ts";
import { scaledShape } from "./scaled-shape.ts";

/** Records that taking pieces in adds to the studio. */
export interface TakenIn {
  readonly pieces: readonly PieceRecord[];
  /** A party the studio did not know. */
  readonly party: PartyRecord | null;
  /** A shape of a size the studio did not know. */
  readonly shape: ShapeRecord | null;
}

/** What is still missing before the pieces can be taken in. */
export type IntakeGap = "shape" | "party" | "class";

export function intakeGaps(intake: Intake): readonly IntakeGap[] {
  const gaps: IntakeGap[] = [];
  if (!intake.shape) gaps.push("shape");
  if (!intake.party || intake.party.name.trim() === "") gaps.push("party");
  if (!intake.firingClass) gaps.push("class");
  return gaps;
}

/** Two sizes that are the same to the millimetre. */
const sameSize = 0.0015;

/**
 * The records for the pieces of one intake, with ids nobody has.
 *
 * @throws RangeError if something is missing: ask `intakeGaps` first
 */
export function takeIn(document: StudioDocument, intake: Intake, note: string = ""): TakenIn {
  const { shape: named, party: whose, firingClass, count } = intake;
  if (!named || !whose || !firingClass) throw new RangeError(`this intake lacks ${intakeGaps(intake).join(", ")}`);
  const shape = shapeOfSize(document, named, intake.size);
  const name = whose.name.trim();
  const party = "id" in whose ? null : newParty(document, name);
  const used = new Set(document.pieces.map(({ id }) => id));
  const pieces: PieceRecord[] = [];
  for (let number = 1; pieces.length < count; number += 1) {
    const id = `${shape.id.slice(0, 50)}-${number}`;
    if (used.has(id)) continue;
    pieces.push({
      version: 1,
      id,
      shapeId: shape.id,
      partyId: "id" in whose ? whose.id : (party as PartyRecord).id,
      classId: firingClass.id,
      promised: intake.promised,
      value: 1,
      stiltId: intake.stiltId,
      state: firingClass.kind === "bisque" ? "raw" : "glazed",
      dryFrom: null,
      held: false,
      note,
    });
  }
  return { pieces, party, shape: document.shapes.includes(shape) ? null : shape };
}

/** The shape itself, one the studio has of that name and size, or a new one. */
export function shapeOfSize(document: StudioDocument, shape: ShapeRecord, size: Intake["size"]): ShapeRecord {
  if (!size) return shape;
  const own = sizeOf(shape);
  const high = size.high ?? own.high * (size.across / own.across);
  const fits = (each: ShapeRecord): boolean => {
    const its = sizeOf(each);
    return Math.abs(its.across - size.across) < sameSize && Math.abs(its.high - high) < sameSize;
  };
  if (fits(shape)) return shape;
  const centimetres = (metres: number): string => String(Math.round(metres * 1000) / 10);
  const stem = shape.name.replace(/ \d[\d.]* × [\d.]+ cm$/, "");
  const name = `${stem} ${centimetres(size.across)} × ${centimetres(high)} cm`;
  const known = document.shapes.find((each) => each.name === name && fits(each));
  return known ?? scaledShape(shape, size.across, size.high, freeId(document.shapes, name), name);
}

function newParty(document: StudioDocument, name: string): PartyRecord {
  const known = document.parties.find((each) => each.name.toLowerCase() === name.toLowerCase());
  return known ?? { version: 1, id: freeId(document.parties, name), name };
}

/** Letters and digits of a name, with a number behind if somebody has it. */
function freeId(records: readonly { readonly id: string }[], name: string): string {
  const used = new Set(records.map(({ id }) => id));
  const plain = name
    .normalize("NFKD")
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, "-")
    .replaceAll(/^-+|-+$/g, "")
    .slice(0, 50);
  const stem = plain === "" ? "new" : plain;
  let id = stem;
  for (let number = 2; used.has(id); number += 1) id = `${stem}-${number}`;
  return id;
}
