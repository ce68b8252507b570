import { failure, success, type Outcome } from "#base";
import { kelvinPerSecondFromPerHour, type Kelvin } from "#engine/units";
import { chartEndPoint } from "./chart.ts";
import { conePositionOf, isConeName } from "./cones.ts";

/** What the entry is for: the cone of the firing class it belongs to, or null where nothing is known yet. */
export interface ConeContext {
  readonly classCone: string | null;
}

/** One way to read an entry. */
export interface ConeChoice {
  readonly cone: string;
  /** Self-supporting end point at 60 C/h; null for cones off the chart. */
  readonly temperature: Kelvin;
}

/**
 * Why an entry was not taken: it is no cone, or it must be asked about first. `words` in src/words puts it to the
 * user with both temperatures.
 *
 * `sign`: it has the digits of the class's neighbourhood with the zero lost or added, 06 against 6.
 * `far`: more than three cones from the class's own.
 */
export type ConeEntryFailure =
  | { readonly kind: "not a cone"; readonly text: string; readonly nearest: string | null }
  | { readonly kind: "ask"; readonly why: "sign" | "far"; readonly entered: ConeChoice; readonly likely: ConeChoice };

const usualRate = kelvinPerSecondFromPerHour(60);
/** Digits this close to the class's own, with the other sign, are taken for a slip [cones]. */
const slip = 2.5;
const far = 3;

/**
 * Reads a cone that someone typed. Never takes 06 for 6 or the other way round: an entry that could be the class's
 * own digits with the zero lost or added, or that lies far from the class, comes back as a question.
 *
 * Accepts "06", "cone 06", "^06", "O6" (letter for digit), "5.5", "5½". A number is not accepted: 06 would be 6.
 *
 * @param text     as typed
 * @param context  the class's cone; null asks nothing
 * @param answered true once the user has confirmed this very entry: then it is taken as it stands
 */
export function coneEntry(text: string, context: ConeContext, answered = false): Outcome<string, ConeEntryFailure> {
  const entered = normalise(text);
  if (!isConeName(entered)) return failure({ kind: "not a cone", text, nearest: nearestName(entered) });
  if (context.classCone === null || answered || entered === context.classCone) return success(entered);
  const own = conePositionOf(context.classCone);
  const here = conePositionOf(entered);
  const sameSign = context.classCone.startsWith("0") === entered.startsWith("0");
  const twin = opposite(entered);
  // A twin on the scale and near the class's cone is what was probably meant.
  if (!sameSign && Math.abs(digitsOf(entered) - digitsOf(context.classCone)) <= slip) {
    const likely = isConeName(twin) ? twin : context.classCone;
    return failure({ kind: "ask", why: "sign", entered: choice(entered), likely: choice(likely) });
  }
  if (Math.abs(here - own) > far) {
    return failure({ kind: "ask", why: "far", entered: choice(entered), likely: choice(context.classCone) });
  }
  return success(entered);
}

function normalise(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/^(cone|c|[\^△Δδ])\s*/u, "")
    .replace(/^o(?=\d)/, "0")
    .replace(/\s*(½|1\/2)$/, ".5");
}

/** "06" ↔ "6". */
function opposite(cone: string): string {
  return cone.startsWith("0") ? cone.slice(1) : `0${cone}`;
}

const digitsOf = (cone: string): number => Number(cone);

function choice(cone: string): ConeChoice {
  return { cone, temperature: chartEndPoint(cone, usualRate)!.temperature };
}

function nearestName(entered: string): string | null {
  const half = /^(0?\d{1,2})[.,]\d+$/.exec(entered);
  return half && isConeName(half[1]) ? half[1] : null;
}
