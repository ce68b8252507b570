import { failure, success, type Outcome, type RunControl } from "#base";
import { packCircles } from "#engine/placing";
import { CaseFault, CaseReader } from "./case-json.ts";

/** What the case door prints for discs in a round container; any unit of length. */
export interface CirclesCase {
  readonly radius: number;
  readonly circles: readonly { readonly x: number; readonly y: number; readonly r: number }[];
  readonly cpu_s: number;
}

export interface CircleOptions {
  readonly seconds: number;
  readonly seed: number;
  readonly control: RunControl;
}

/**
 * Packs the discs of `{radii: [...]}`, or of `{N}` unit discs, into a small round container about the origin.
 *
 * @returns the case's answer, or one line of text that names the place and the remedy
 */
export function solveCirclesCase(json: unknown, options: CircleOptions): Outcome<CirclesCase, string> {
  try {
    const radii = radiiOf(new CaseReader(json));
    const started = options.control.elapsed();
    const packing = packCircles(radii, { seconds: options.seconds, steps: Infinity }, options.seed, options.control);
    return success({
      radius: packing.radius,
      circles: packing.centres.map(([x, y], k) => ({ x, y, r: radii[k] })),
      cpu_s: options.control.elapsed() - started,
    });
  } catch (fault) {
    if (fault instanceof CaseFault) return failure(fault.message);
    throw fault;
  }
}

function radiiOf(reader: CaseReader): number[] {
  if (reader.has("radii"))
    return reader
      .at("radii")
      .list(1)
      .map((each) => each.positive());
  if (!reader.has("N")) throw reader.fault('either "radii" (a list) or "N" (a count of unit discs)');
  return Array.from({ length: reader.at("N").whole(1, 5000) }, () => 1);
}
