import type { Kiln, Schedule } from "#engine/kiln";
import type { FiringFailure } from "./options.ts";

const celsius = (kelvin: number): string => `${Math.round(kelvin - 273.15)} C`;

/** What makes a schedule impossible for a kiln, or null. */
export function scheduleFault(schedule: Schedule, kiln: Kiln, ambient: number): FiringFailure | null {
  const bad = (segment: number, message: string): FiringFailure => ({ kind: "bad-schedule", segment, message });
  if (schedule.segments.length === 0) return bad(0, "The schedule has no segments; add at least one.");
  for (const [index, { rate, target, hold }] of schedule.segments.entries()) {
    const name = `Segment ${index + 1}`;
    if (!(target > ambient)) {
      return bad(index, `${name} asks for ${celsius(target)}, not above the room's ${celsius(ambient)}; raise it.`);
    }
    if (target > kiln.maxTemperature) {
      return bad(index, `${name} asks for ${celsius(target)}; ${kiln.name} may go to ${celsius(kiln.maxTemperature)}.`);
    }
    if (rate !== "full" && !(rate > 0 && Number.isFinite(rate))) {
      return bad(index, `${name} has a rate of ${rate} K/s; give one above 0 or "full".`);
    }
    if (!(hold >= 0 && Number.isFinite(hold))) return bad(index, `${name} holds for ${hold} s; give 0 or more.`);
  }
  return null;
}
