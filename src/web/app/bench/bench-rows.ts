import type { ClassRecord, PartyRecord, PieceRecord, SettingRecord, ShapeRecord, StudioDocument } from "#records";
import { found, isReady, kilnFit, type KilnFit } from "#work";

/** Whether one kiln can take the pieces of a row. */
export interface RowFit {
  readonly kilnName: string;
  readonly fit: KilnFit;
}

/** Pieces on the bench that are alike in every way that matters here: one line. */
export interface BenchRow {
  readonly key: string;
  readonly pieces: readonly PieceRecord[];
  readonly party: PartyRecord;
  readonly shape: ShapeRecord;
  readonly firingClass: ClassRecord;
  readonly promised: string;
  readonly held: boolean;
  /** Still drying on the day asked about; then from when it is dry. */
  readonly dryFrom: string | null;
  readonly fits: readonly RowFit[];
  /** The setting the pieces are in. */
  readonly setting: SettingRecord | null;
  /** Why the last proposal of their class left them out. */
  readonly waits: NonNullable<SettingRecord["proposal"]>["waiting"][number]["reason"] | null;
}

export type Grouping = "day" | "class" | "fit";

export interface RowGroup {
  readonly key: string;
  readonly rows: readonly BenchRow[];
}

export const tooBig = (row: BenchRow): boolean => row.fits.length > 0 && row.fits.every(({ fit }) => !fit.fits);

/** The pieces that wait, as lines: by promised day, then party, then shape. */
export function benchRows(document: StudioDocument, today: string): readonly BenchRow[] {
  const settingOf = new Map<string, SettingRecord>();
  const reasonOf = new Map<string, BenchRow["waits"]>();
  for (const setting of document.settings) {
    // A copy holds the same pieces: they are in the setting that had them first.
    for (const { pieceId } of setting.setting.pieces) if (!settingOf.has(pieceId)) settingOf.set(pieceId, setting);
    for (const { pieceId, reason } of setting.proposal?.waiting ?? []) reasonOf.set(pieceId, reason);
  }
  const fits = fitsByPiece(document);
  const rows = new Map<string, BenchRow & { pieces: PieceRecord[] }>();
  for (const piece of document.pieces) {
    const setting = settingOf.get(piece.id) ?? null;
    const waits = setting ? null : (reasonOf.get(piece.id) ?? null);
    const dryFrom = isReady({ ...piece, held: false }, today) ? null : piece.dryFrom;
    const alike = [piece.promised, piece.partyId, piece.shapeId, piece.classId, piece.stiltId, piece.state, dryFrom];
    const key = [...alike, piece.held, piece.note, setting?.id, waits].join("|");
    const row = rows.get(key);
    if (row) row.pieces.push(piece);
    else {
      rows.set(key, {
        key,
        pieces: [piece],
        party: found(document.parties, piece.partyId, "party"),
        shape: found(document.shapes, piece.shapeId, "shape"),
        firingClass: found(document.classes, piece.classId, "class"),
        promised: piece.promised,
        held: piece.held,
        dryFrom,
        fits: fits(piece),
        setting,
        waits,
      });
    }
  }
  return [...rows.values()].sort(
    (a, b) =>
      a.promised.localeCompare(b.promised) ||
      a.party.name.localeCompare(b.party.name) ||
      a.shape.name.localeCompare(b.shape.name),
  );
}

/** Worked out once per shape and lift. */
function fitsByPiece(document: StudioDocument): (piece: PieceRecord) => readonly RowFit[] {
  const lifts = new Map(document.furniture.flatMap(({ stilts }) => stilts.map((stilt) => [stilt.id, stilt.lift])));
  const known = new Map<string, readonly RowFit[]>();
  return (piece) => {
    const key = `${piece.shapeId}|${piece.stiltId}`;
    let fits = known.get(key);
    if (!fits) {
      const shape = found(document.shapes, piece.shapeId, "shape");
      const lift = piece.stiltId === null ? 0 : (lifts.get(piece.stiltId) ?? 0);
      fits = document.kilns.map((kiln) => {
        const furniture = found(document.furniture, kiln.furnitureId, "furniture");
        return { kilnName: kiln.name, fit: kilnFit(kiln, furniture, shape, lift) };
      });
      known.set(key, fits);
    }
    return fits;
  };
}

/** Rows whose party, shape, class, setting or note has every word of the search. */
export function rowsFound(rows: readonly BenchRow[], search: string): readonly BenchRow[] {
  const words = search.toLocaleLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) return rows;
  return rows.filter(({ party, shape, firingClass, setting, pieces }) => {
    const names = [party.name, shape.name, ...shape.alsoCalled, firingClass.name, pieces[0]?.note ?? ""];
    const text = [...names, setting ? `setting ${setting.name}` : ""].join(" ").toLocaleLowerCase();
    // "mugs" finds the mug.
    return words.every((word) => text.includes(word) || (word.endsWith("s") && text.includes(word.slice(0, -1))));
  });
}

/** Rows in groups, in the order of their days, classes or fits. */
export function groupsOf(rows: readonly BenchRow[], by: Grouping): readonly RowGroup[] {
  const groups = new Map<string, BenchRow[]>();
  for (const row of rows) {
    const key = by === "day" ? row.promised : by === "class" ? row.firingClass.id : fitKey(row);
    const group = groups.get(key);
    if (group) group.push(row);
    else groups.set(key, [row]);
  }
  return [...groups].map(([key, group]) => ({ key, rows: group }));
}

/** Names of the kilns that take it: rows with the same key fit the same kilns. */
export function fitKey(row: BenchRow): string {
  return row.fits
    .filter(({ fit }) => fit.fits)
    .map(({ kilnName }) => kilnName)
    .join(", ");
}

/** How many pieces are where: the line under the title. */
export interface BenchCount {
  readonly all: number;
  readonly placed: readonly { readonly setting: SettingRecord; readonly count: number }[];
  readonly drying: number;
  readonly held: number;
  readonly tooBig: number;
  /** Ready and in no setting, by class. */
  readonly free: readonly { readonly firingClass: ClassRecord; readonly count: number }[];
}

export function benchCount(rows: readonly BenchRow[]): BenchCount {
  const placed = new Map<SettingRecord, number>();
  const free = new Map<ClassRecord, number>();
  const count = { all: 0, drying: 0, held: 0, tooBig: 0 };
  for (const row of rows) {
    const pieces = row.pieces.length;
    count.all += pieces;
    if (row.setting) placed.set(row.setting, (placed.get(row.setting) ?? 0) + pieces);
    else if (tooBig(row)) count.tooBig += pieces;
    else if (row.held) count.held += pieces;
    else if (row.dryFrom !== null) count.drying += pieces;
    else free.set(row.firingClass, (free.get(row.firingClass) ?? 0) + pieces);
  }
  return {
    ...count,
    placed: [...placed].map(([setting, pieces]) => ({ setting, count: pieces })),
    free: [...free].map(([firingClass, pieces]) => ({ firingClass, count: pieces })),
  };
}
