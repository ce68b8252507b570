import { startingSchedules as adviseSchedules } from "#engine/advising";
import type { FiringClass, Kiln } from "#engine/kiln";
import type { ScheduleRecord } from "#records";
import { typicalKiln } from "../demo/kilns.ts";
import { startingClasses } from "./classes.ts";

/** Schedules to start from for a class in a kiln, the usual one first; none where the kiln cannot reach its cone. */
export function schedulesFor(firingClass: FiringClass, kiln: Kiln): readonly ScheduleRecord[] {
  const advised = adviseSchedules(firingClass, kiln);
  if (!advised.ok) return [];
  return advised.value.map(({ schedule }) => ({
    version: 1,
    id: schedule.id,
    name: schedule.name,
    segments: schedule.segments.map(({ rate, target, hold }) => ({ rate, target, hold })),
  }));
}

/**
 * Schedules a new studio starts with: for each starting class a usual and a slow one, as a kiln of usual size and
 * power can run them. A kiln's manual and a glaze's label come first.
 */
export function startingSchedules(): readonly ScheduleRecord[] {
  return startingClasses.flatMap((each) => schedulesFor(each, typicalKiln));
}
