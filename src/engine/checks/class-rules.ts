import { coneAt, coneChart, conePositionOf, heatworkPosition } from "#engine/heatwork";
import type { FiringClass, Schedule } from "#engine/kiln";
import type { Kelvin } from "#engine/units";
import { draft, type Draft } from "./draft.ts";
import { length, message, temperature } from "./message-keys.ts";
import { ruleNumbers } from "./rule-table.ts";
import { hair, type PieceSolid, type Scene } from "./scene.ts";

/** What the checks may know beyond the setting. Each left out leaves its rules undecided, and says so. */
export interface Programme {
  /** The schedule to be fired. */
  readonly schedule?: Schedule | null;
  /** The cone typed into a controller that fires by cone. */
  readonly coneSet?: string | null;
}

const roomTemperature: Kelvin = 293.15;
/** For segments as fast as the kiln can: what kilns do near their end [K/s]. Common practice, no source. */
const fullRate = 100 / 3600;

/** Pieces that belong together, the heat they get, and the stilts that must bear it. */
export function classDrafts(scene: Scene, programme: Programme): readonly Draft[] {
  return [...mixedDrafts(scene), ...coneSetDrafts(scene, programme), ...stiltDrafts(scene, peakOf(scene, programme))];
}

function mixedDrafts(scene: Scene): readonly Draft[] {
  const strangers = scene.pieces.filter((piece) => piece.piece.classId !== scene.load.firingClass.id);
  if (strangers.length === 0) return [];
  const count = strangers.length;
  const pieceIds = strangers.map((piece) => piece.piece.id);
  return [
    draft("one-class", {
      shelfIds: [...new Set(strangers.map((piece) => piece.shelf.placed.id))],
      pieceIds,
      measured: count,
      limit: 0,
      message: message("found.one-class", { count, class: scene.load.firingClass.name }),
      advice: message("do.take-out", { count }),
      candidates: () => [{ remedy: { kind: "take-out", pieceIds }, advice: message("do.take-out", { count }) }],
    }),
  ];
}

/** Where a schedule would land on the cone scale if the ware followed it exactly [cones]. */
export function coneOfSchedule(schedule: Schedule): number {
  const times = [0];
  const temperatures = [roomTemperature];
  for (const { rate, target, hold } of schedule.segments) {
    const before = temperatures.at(-1) as number;
    const speed = rate === "full" ? fullRate : rate;
    times.push((times.at(-1) as number) + Math.abs(target - before) / speed);
    temperatures.push(target);
    if (hold > 0) {
      times.push((times.at(-1) as number) + hold);
      temperatures.push(target);
    }
  }
  return heatworkPosition(times, temperatures);
}

/** True for cones that differ by their leading zero alone: 06 and 6. */
export function digitTwins(a: string, b: string): boolean {
  return a !== b && a.replace(/^0/, "") === b.replace(/^0/, "");
}

function coneSetDrafts(scene: Scene, { schedule, coneSet }: Programme): readonly Draft[] {
  const wanted = scene.load.firingClass.cone;
  const place = conePositionOf(wanted);
  const found: Draft[] = [];
  if (coneSet && coneSet !== wanted) {
    const off = Math.abs(conePositionOf(coneSet) - place);
    found.push(
      draft("cone-set", {
        level: off > ruleNumbers.coneDifference ? "stop" : "check",
        measured: off,
        limit: 0,
        message: message(digitTwins(coneSet, wanted) ? "found.cone-digits" : "found.cone-set", {
          set: coneSet,
          wanted,
        }),
        advice: message("do.set-cone", { wanted }),
      }),
    );
  }
  if (schedule) {
    const position = coneOfSchedule(schedule);
    const off = Math.abs(position - place);
    if (off > ruleNumbers.coneDifference) {
      const set = coneAt(position);
      found.push(
        draft("cone-set", {
          measured: off,
          limit: ruleNumbers.coneDifference,
          message: message(digitTwins(set, wanted) ? "found.schedule-digits" : "found.schedule-cone", {
            set,
            wanted,
            name: schedule.name,
          }),
          advice: message("do.set-schedule", { wanted }),
        }),
      );
    }
  }
  return found;
}

/** Hottest the ware is meant to get [K]: the schedule's highest target, else the class's cone at 60 K/h. Source: [orton-chart] */
export function peakOf(scene: Scene, { schedule }: Programme): Kelvin | null {
  if (schedule) return Math.max(...schedule.segments.map((segment) => segment.target));
  return coneTemperature(scene.load.firingClass);
}

function coneTemperature({ cone }: FiringClass): Kelvin | null {
  const values = coneChart.filter((value) => value.cone === cone && value.kind === "self-supporting regular");
  const perHour = (rate: number): number => Math.abs(rate * 3600 - 60);
  return values.sort((a, b) => perHour(a.rate) - perHour(b.rate))[0]?.temperature ?? null;
}

function stiltDrafts(scene: Scene, peak: Kelvin | null): readonly Draft[] {
  const { rules } = scene.load.kiln;
  const found: Draft[] = [];
  const hot = new Map<string, PieceSolid[]>();
  for (const piece of scene.pieces) {
    const stilt = scene.load.furniture.stilts.find((each) => each.id === piece.piece.stiltId);
    if (!stilt) continue;
    const foot = 2 * Math.min(...piece.foot.map((box) => box.radius + Math.min(box.halfX, box.halfY)));
    // Between the points the floor spans the stilt's circle; outside it the rim stands out on both sides.
    const span = Math.max(stilt.span, foot - stilt.span);
    if (span > rules.stiltSpan + hair) {
      found.push(
        draft("stilt-span", {
          shelfIds: [piece.shelf.placed.id],
          pieceIds: [piece.piece.id],
          measured: span,
          limit: rules.stiltSpan,
          message: message(stilt.span > rules.stiltSpan + hair ? "found.stilt-span" : "found.stilt-off-foot", {
            piece: piece.name,
            measured: length(span),
            limit: length(rules.stiltSpan),
          }),
          advice: message("do.no-stilt", { piece: piece.name }),
        }),
      );
    }
    const limit =
      stilt.points === "metal" ? Math.min(rules.metalStiltLimit, stilt.maxTemperature) : stilt.maxTemperature;
    if (peak !== null && peak > limit + 1e-6) hot.set(stilt.id, [...(hot.get(stilt.id) ?? []), piece]);
  }
  for (const [stiltId, pieces] of hot) {
    const stilt = scene.load.furniture.stilts.find((each) => each.id === stiltId) as NonNullable<
      (typeof scene.load.furniture.stilts)[number]
    >;
    const metal = stilt.points === "metal";
    const limit = metal ? Math.min(rules.metalStiltLimit, stilt.maxTemperature) : stilt.maxTemperature;
    found.push(
      draft("stilt-heat", {
        pieceIds: pieces.map((piece) => piece.piece.id),
        measured: peak,
        limit,
        message: message(metal ? "found.stilt-heat-metal" : "found.stilt-heat", {
          count: pieces.length,
          peak: temperature(peak as number),
          limit: temperature(limit),
        }),
        advice: message(metal ? "do.ceramic-stilt" : "do.hotter-stilt"),
      }),
    );
  }
  return found;
}
