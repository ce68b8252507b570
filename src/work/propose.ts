import { failure, success, type Outcome, type RunControl } from "#base";
import { proposeSetting, type MipSolver } from "#engine/placing";
import { kilnOf, type PieceRecord, type SettingRecord, type StudioDocument } from "#records";
import { dayNumberOf } from "./day.ts";
import { pieceOf } from "./load-of-setting.ts";
import { lookUp, type WorkFailure } from "./work-failure.ts";

export interface ProposeRequest {
  readonly kilnId: string;
  readonly classId: string;
  /** Day the firing is to start, ISO 8601: pieces that are dry by then can go in. */
  readonly day: string;
  /** Pieces to choose from; left out: every ready piece of the class that is in no other setting. */
  readonly pieceIds?: readonly string[] | undefined;
  /** Setting to start from: its fixed pieces stay, and it keeps its id, name, schedule and start. */
  readonly settingId: string | null;
  /** Time to spend [s]. */
  readonly seconds: number;
  readonly seed: number;
  /** Work to spend instead, so that a slow machine finds the same: 100 000 steps are about a second. */
  readonly steps?: number | undefined;
}

/** Firings start in the morning unless someone says otherwise, so that the end falls into a day [s after midnight]. */
const usualStart = 7 * 3600;

/** A setting of the studio's pieces for a kiln, not yet part of the studio; or why none can be proposed. */
export function propose(
  document: StudioDocument,
  request: ProposeRequest,
  solver: MipSolver,
  control: RunControl,
): Outcome<SettingRecord, WorkFailure> {
  const kiln = lookUp(document.kilns, request.kilnId, "kiln");
  if (!kiln.ok) return kiln;
  const firingClass = lookUp(document.classes, request.classId, "firing class");
  if (!firingClass.ok) return firingClass;
  const furniture = lookUp(document.furniture, kiln.value.furnitureId, "set of furniture");
  if (!furniture.ok) return furniture;
  const before = request.settingId === null ? null : lookUp(document.settings, request.settingId, "setting");
  if (before?.ok === false) return before;
  const from = before?.value ?? null;
  const unknown = request.pieceIds?.find((id) => !document.pieces.some((piece) => piece.id === id));
  if (unknown !== undefined) {
    return failure({
      error: `The piece "${unknown}" is not in this studio.`,
      remedy: "Load the page anew: someone may have taken it out.",
    });
  }
  const pieces = request.pieceIds
    ? document.pieces.filter((piece) => request.pieceIds!.includes(piece.id))
    : readyPieces(document, request.classId, request.day, request.settingId);
  if (pieces.length === 0) {
    return failure({
      error: `No piece of ${firingClass.value.name} is ready and free on that day.`,
      remedy:
        "Take in pieces of this class, choose another class or a later day, or take pieces out of another setting.",
    });
  }
  const proposed = proposeSetting(
    {
      kiln: kilnOf(kiln.value),
      furniture: furniture.value,
      firingClass: firingClass.value,
      shapes: new Map(document.shapes.map((shape) => [shape.id, shape])),
      pieces: pieces.map(pieceOf),
      today: dayNumberOf(request.day),
      keep: from?.setting ?? null,
      seed: request.seed,
      seconds: request.seconds,
      ...(request.steps === undefined ? {} : { steps: request.steps }),
    },
    solver,
    control,
  );
  if (!proposed.ok) return failure({ error: proposed.failure.problem, remedy: proposed.failure.remedy });
  const { setting, value, bound, seed, seconds, waiting } = proposed.value;
  const name = from?.name ?? nextName(document.settings);
  return success({
    version: 1,
    id: from?.id ?? freeId(document.settings, `${request.kilnId}-${name.toLowerCase()}`),
    name,
    kilnId: request.kilnId,
    classId: request.classId,
    scheduleId: from?.classId === request.classId ? from.scheduleId : firingClass.value.usualScheduleId,
    day: request.day,
    startsAt: from?.startsAt ?? usualStart,
    setting: setting as SettingRecord["setting"],
    proposal: { value, bound, seed, seconds, waiting: [...waiting] },
    note: from?.note ?? "",
  });
}

/** Pieces of a class that can go into a firing on a day: dry by then, not held back, and in no other setting. */
export function readyPieces(
  document: StudioDocument,
  classId: string,
  day: string,
  settingId: string | null,
): readonly PieceRecord[] {
  const taken = new Set(
    document.settings
      .filter(({ id }) => id !== settingId)
      .flatMap(({ setting }) => setting.pieces.map((each) => each.pieceId)),
  );
  return document.pieces.filter((piece) => piece.classId === classId && isReady(piece, day) && !taken.has(piece.id));
}

/** True if a piece can be fired on a day: dry by its own local date, and not held back. */
export function isReady(piece: PieceRecord, day: string): boolean {
  return !piece.held && (piece.dryFrom === null || piece.dryFrom.slice(0, 10) <= day);
}

/** A, B, … Z, AA, AB …: the first that no setting has. */
function nextName(settings: readonly SettingRecord[]): string {
  const used = new Set(settings.map((each) => each.name));
  for (let number = 1; ; number += 1) {
    let name = "";
    for (let rest = number; rest > 0; rest = Math.floor((rest - 1) / 26)) {
      name = String.fromCodePoint(65 + ((rest - 1) % 26)) + name;
    }
    if (!used.has(name)) return name;
  }
}

function freeId(settings: readonly SettingRecord[], wanted: string): string {
  const used = new Set(settings.map((each) => each.id));
  let id = wanted;
  for (let number = 2; used.has(id); number += 1) id = `${wanted}-${number}`;
  return id;
}
