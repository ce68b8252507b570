import { failure, success, type Outcome } from "#base";
import { z } from "zod";
import { classKind, type ClassRecord } from "./class-record.ts";
import { furnitureKind, type FurnitureRecord } from "./furniture-record.ts";
import { kilnKind, type KilnRecord } from "./kiln-record.ts";
import { partyKind, type PartyRecord } from "./party-record.ts";
import { pieceKind, type PieceRecord } from "./piece-record.ts";
import { readRecord, shortened, type Problem, type RecordKind } from "./record-kind.ts";
import { scheduleKind, type ScheduleRecord } from "./schedule-record.ts";
import { settingKind, type SettingRecord } from "./setting-record.ts";
import { shapeKind, type ShapeRecord } from "./shape-record.ts";
import { studioKind, type StudioRecord } from "./studio-record.ts";

/** A whole studio as one JSON document: what is exported, imported and given to the command line. */
export interface StudioDocument {
  readonly format: "spyhole-studio";
  readonly studio: StudioRecord;
  readonly kilns: readonly KilnRecord[];
  readonly furniture: readonly FurnitureRecord[];
  readonly shapes: readonly ShapeRecord[];
  readonly parties: readonly PartyRecord[];
  readonly classes: readonly ClassRecord[];
  readonly schedules: readonly ScheduleRecord[];
  readonly pieces: readonly PieceRecord[];
  readonly settings: readonly SettingRecord[];
}

/** The collections of a studio document and the kind of record each holds. */
export const collections = {
  kilns: kilnKind,
  furniture: furnitureKind,
  shapes: shapeKind,
  parties: partyKind,
  classes: classKind,
  schedules: scheduleKind,
  pieces: pieceKind,
  settings: settingKind,
} as const;

export type CollectionName = keyof typeof collections;
export const collectionNames = Object.keys(collections) as readonly CollectionName[];

/** What every record has. */
export interface AnyRecord {
  readonly id: string;
}

/** The kind of the records in a collection; "studio" is the studio's own. */
export function kindOf(collection: "studio" | CollectionName): RecordKind<z.ZodType<AnyRecord>> {
  return collection === "studio" ? studioKind : collections[collection];
}

/** For JSON Schema and the API; reading goes through `readStudio`, which also migrates and checks references. */
export const studioDocumentSchema = z.strictObject({
  format: z.literal("spyhole-studio"),
  studio: studioKind.schema,
  kilns: z.array(kilnKind.schema),
  furniture: z.array(furnitureKind.schema),
  shapes: z.array(shapeKind.schema),
  parties: z.array(partyKind.schema),
  classes: z.array(classKind.schema),
  schedules: z.array(scheduleKind.schema),
  pieces: z.array(pieceKind.schema),
  settings: z.array(settingKind.schema),
});

/**
 * The document at the present versions with every reference resolved, or all that is wrong with it.
 *
 * A document is taken whole or not at all.
 */
export function readStudio(input: unknown): Outcome<StudioDocument, readonly Problem[]> {
  if (typeof input !== "object" || input === null || Array.isArray(input)) {
    return failure([{ path: "document", value: shortened(input), expected: "a studio document, a JSON object" }]);
  }
  const given = input as Record<string, unknown>;
  const problems: Problem[] = [];
  if (given.format !== "spyhole-studio") {
    problems.push({
      path: "format",
      value: shortened(given.format),
      expected: '"spyhole-studio": is this a Spyhole export?',
    });
  }
  for (const key of Object.keys(given)) {
    if (key !== "format" && key !== "studio" && !(key in collections)) {
      problems.push({
        path: key,
        value: shortened(given[key]),
        expected: `only format, studio, ${collectionNames.join(", ")}`,
      });
    }
  }
  const studio = readRecord(studioKind, given.studio, "studio");
  if (!studio.ok) problems.push(...studio.failure);
  const read: Record<string, unknown[]> = {};
  for (const collection of collectionNames) {
    const records = given[collection];
    const into: unknown[] = (read[collection] = []);
    if (!Array.isArray(records)) {
      problems.push({ path: collection, value: shortened(records), expected: "a list of records" });
      continue;
    }
    records.forEach((record, index) => {
      const outcome = readRecord(kindOf(collection), record, `${collection}[${index}]`);
      if (outcome.ok) into.push(outcome.value);
      else problems.push(...outcome.failure);
    });
  }
  if (problems.length > 0 || !studio.ok) return failure(problems);
  const document = { format: "spyhole-studio", studio: studio.value, ...read } as unknown as StudioDocument;
  const broken = brokenReferences(document);
  return broken.length > 0 ? failure(broken) : success(document);
}

/** References to records that are not there, and ids used twice. */
export function brokenReferences(document: StudioDocument): readonly Problem[] {
  const problems: Problem[] = [];
  const ids = (collection: CollectionName): ReadonlySet<string> => {
    const seen = new Set<string>();
    document[collection].forEach((record, index) => {
      if (seen.has(record.id)) {
        problems.push({
          path: `${collection}[${index}].id`,
          value: shortened(record.id),
          expected: "an id used once in its list",
        });
      }
      seen.add(record.id);
    });
    return seen;
  };
  const known = Object.fromEntries(collectionNames.map((each) => [each, ids(each)])) as Record<
    CollectionName,
    ReadonlySet<string>
  >;
  const refer = (path: string, id: string | null, to: CollectionName): void => {
    if (id !== null && !known[to].has(id))
      problems.push({ path, value: shortened(id), expected: `the id of one of the ${to}` });
  };
  const stilts = new Set(document.furniture.flatMap((each) => each.stilts.map((stilt) => stilt.id)));
  document.kilns.forEach((kiln, i) => refer(`kilns[${i}].furnitureId`, kiln.furnitureId, "furniture"));
  document.classes.forEach((each, i) => refer(`classes[${i}].usualScheduleId`, each.usualScheduleId, "schedules"));
  document.pieces.forEach((piece, i) => {
    refer(`pieces[${i}].shapeId`, piece.shapeId, "shapes");
    refer(`pieces[${i}].partyId`, piece.partyId, "parties");
    refer(`pieces[${i}].classId`, piece.classId, "classes");
    if (piece.stiltId !== null && !stilts.has(piece.stiltId)) {
      problems.push({
        path: `pieces[${i}].stiltId`,
        value: shortened(piece.stiltId),
        expected: "the id of a stilt in the furniture",
      });
    }
  });
  document.settings.forEach((each, i) => {
    refer(`settings[${i}].kilnId`, each.kilnId, "kilns");
    refer(`settings[${i}].classId`, each.classId, "classes");
    refer(`settings[${i}].scheduleId`, each.scheduleId, "schedules");
    const kiln = document.kilns.find((candidate) => candidate.id === each.kilnId);
    const furniture = document.furniture.find((candidate) => candidate.id === kiln?.furnitureId);
    const shelves = new Set<string>();
    each.setting.shelves.forEach((shelf, j) => {
      const path = `settings[${i}].setting.shelves[${j}]`;
      if (shelves.has(shelf.id))
        problems.push({ path: `${path}.id`, value: shortened(shelf.id), expected: "an id used once in its setting" });
      shelves.add(shelf.id);
      if (furniture && !furniture.shelves.some((type) => type.id === shelf.typeId)) {
        problems.push({
          path: `${path}.typeId`,
          value: shortened(shelf.typeId),
          expected: `a shelf of ${furniture.name}`,
        });
      }
    });
    const placed = new Set<string>();
    each.setting.pieces.forEach((piece, j) => {
      const path = `settings[${i}].setting.pieces[${j}]`;
      refer(`${path}.pieceId`, piece.pieceId, "pieces");
      if (placed.has(piece.pieceId))
        problems.push({ path: `${path}.pieceId`, value: shortened(piece.pieceId), expected: "a piece placed once" });
      placed.add(piece.pieceId);
      if (!shelves.has(piece.shelfId))
        problems.push({
          path: `${path}.shelfId`,
          value: shortened(piece.shelfId),
          expected: "the id of a shelf in this setting",
        });
    });
    each.setting.cones.forEach((pack, j) => {
      if (!shelves.has(pack.shelfId)) {
        problems.push({
          path: `settings[${i}].setting.cones[${j}].shelfId`,
          value: shortened(pack.shelfId),
          expected: "the id of a shelf in this setting",
        });
      }
    });
  });
  return problems;
}

/** JSON Schema (draft 2020-12) of a studio document, published at docs/reference/studio.schema.json. */
export function studioJsonSchema(): unknown {
  const schema = z.toJSONSchema(studioDocumentSchema, { target: "draft-2020-12" });
  return { title: "A Spyhole studio document", description: "All quantities in SI.", ...schema };
}
