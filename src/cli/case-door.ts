import { failure, type Outcome, type RunControl } from "#base";
import { createHighsSolver } from "#solvers";
import { CaseFault, CaseReader, historyCase, solveCirclesCase, solveLoadCase } from "#work/cases";
import { enclosure, lumped } from "./heat-cases.ts";

export interface CaseOptions {
  /** Time to spend on a search [s]. */
  readonly seconds: number;
  readonly seed: number;
  readonly control: RunControl;
}

interface CaseKind {
  /** For people: what it is, and by which fields it is known. */
  readonly name: string;
  readonly fields: readonly string[];
  readonly solve: (json: unknown, options: CaseOptions) => Outcome<object, string> | Promise<Outcome<object, string>>;
}

/** Kinds of JSON cases, known by what they hold. */
const kinds: readonly CaseKind[] = [
  { name: "circles", fields: ["radii"], solve: solveCirclesCase },
  { name: "equal circles", fields: ["N"], solve: solveCirclesCase },
  {
    name: "load",
    fields: ["kiln", "items"],
    solve: async (json, options) => solveLoadCase(json, { ...options, solver: await createHighsSolver() }),
  },
  { name: "lumped enclosure", fields: ["surfaces", "F"], solve: (json) => lumped(new CaseReader(json)) },
  {
    name: "enclosure",
    fields: ["enclosure", "band"],
    solve: (json, { control }) => enclosure(new CaseReader(json), control),
  },
  {
    name: "calendar",
    fields: ["lots", "kil"],
    solve: () => failure("lots and kil make a calendar, which this Spyhole cannot plan yet; give another kind of case"),
  },
];

/**
 * The answer to a case in one of the outside formats, known by its content; or one line that names the place and the
 * remedy.
 */
export async function solveCase(text: string, options: CaseOptions): Promise<Outcome<object, string>> {
  if (!/^\s*[[{]/.test(text)) return historyCase(text);
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    return failure(`the file is not whole JSON (${error instanceof Error ? error.message : String(error)}); mend it`);
  }
  try {
    const file = new CaseReader(json);
    const kind = kinds.find(({ fields }) => fields.every((field) => file.has(field)));
    if (kind) return await kind.solve(json, options);
    const known = kinds.map(({ name, fields }) => `${name} {${fields.join(", ")}}`).join(", ");
    return failure(`the file is of no kind known here; give one of ${known}, or a history in CSV with t_s,temp_c`);
  } catch (error) {
    if (error instanceof CaseFault) return failure(error.message);
    throw error;
  }
}
