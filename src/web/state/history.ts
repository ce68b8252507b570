import { inverseOf, keyOf, recordAt, sameJson, type Edit } from "./edits.ts";
import type { StudioDocument } from "#records";

/** One step that can be taken back. `label` names it: "move of no. 7". */
export interface Step {
  readonly label: string;
  readonly edits: readonly Edit[];
  readonly back: readonly Edit[];
  /** Steps with the same key that follow one another quickly are one step (ten presses of an arrow key). */
  readonly mergeKey: string | null;
  /** When it was last added to [ms]. */
  readonly at: number;
}

export interface History {
  readonly done: readonly Step[];
  readonly undone: readonly Step[];
}

export const emptyHistory: History = { done: [], undone: [] };

/** Longest pause between two presses that still count as one step [ms]. */
const mergeWithin = 1500;

export function withStep(
  history: History,
  document: StudioDocument,
  step: {
    readonly label: string;
    readonly edits: readonly Edit[];
    readonly mergeKey: string | null;
    readonly at: number;
  },
): History {
  const last = history.done.at(-1);
  const sameKeys = (a: readonly Edit[], b: readonly Edit[]): boolean =>
    a.length === b.length && a.every((edit, index) => keyOf(edit) === keyOf(b[index]));
  if (
    last &&
    step.mergeKey !== null &&
    last.mergeKey === step.mergeKey &&
    history.undone.length === 0 &&
    step.at - last.at <= mergeWithin &&
    sameKeys(last.edits, step.edits)
  ) {
    return { done: [...history.done.slice(0, -1), { ...last, edits: step.edits, at: step.at }], undone: [] };
  }
  return { done: [...history.done, { ...step, back: inverseOf(document, step.edits) }], undone: [] };
}

/** True while the records a step left behind are as it left them: then it can be taken back without touching others. */
export function standsAsLeft(document: StudioDocument, edits: readonly Edit[]): boolean {
  const last = new Map(edits.map((edit) => [keyOf(edit), edit]));
  return [...last.values()].every((edit) => sameJson(recordAt(document, edit.place, edit.id), edit.record));
}
