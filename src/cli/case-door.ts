import type { Outcome, RunControl } from "#base";
import { CaseFault, fieldsOf, type Fields } from "./case-fields.ts";
import { enclosure, history, lumped } from "./heat-cases.ts";

export interface CaseOptions {
  /** Time to spend on a search [s]. */
  readonly seconds: number;
  readonly seed: number;
}

interface CaseKind {
  readonly name: string;
  readonly isIt: (file: Fields) => boolean;
  readonly solve: (file: Fields, options: CaseOptions, control: RunControl) => Promise<Outcome<object, string>>;
}

/** Kinds of JSON cases, known by what they hold. */
const kinds: readonly CaseKind[] = [
  {
    name: "lumped enclosure (surfaces, F)",
    isIt: (file) => file.has("surfaces") && file.has("F"),
    solve: async (file) => lumped(file),
  },
  {
    name: "enclosure (enclosure, band)",
    isIt: (file) => file.has("enclosure") && file.has("band"),
    solve: async (file, _, control) => enclosure(file, control),
  },
  {
    name: "calendar (lots, kil)",
    isIt: (file) => file.has("lots") && file.has("kil"),
    solve: async () => ({ ok: false, failure: "a calendar: this Spyhole plans no calendars yet; give another kind" }),
  },
];

/**
 * The answer to a case in one of the outside formats, known by its content; or one line that names the place and the
 * remedy.
 */
export async function solveCase(
  text: string,
  options: CaseOptions,
  control: RunControl,
): Promise<Outcome<object, string>> {
  if (!/^\s*[[{]/.test(text)) return history(text);
  try {
    const file = fieldsOf(parse(text), "");
    const kind = kinds.find((each) => each.isIt(file));
    if (kind) return await kind.solve(file, options, control);
    const known = kinds.map((each) => each.name).join("; ");
    return { ok: false, failure: `the file is of no kind known here; give one of: ${known}; or a CSV with t_s,temp_c` };
  } catch (error) {
    if (error instanceof CaseFault) return { ok: false, failure: error.message };
    throw error;
  }
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new CaseFault(
      "the file",
      text.slice(0, 12),
      `mend the JSON: ${error instanceof Error ? error.message : String(error)}`,
    );
  }
}
