/**
 * One check of the equations against an answer from outside the project.
 *
 * Listed in `register.ts`; the tests, `npm run verify` and the report page all read the same list.
 */
export interface VerificationCase {
  readonly id: string;
  /** What is compared, in words. */
  readonly quantity: string;
  /** Where the reference comes from: a key of docs/references.json in brackets, and what in it. */
  readonly source: string;
  readonly run: () => Verified | Promise<Verified>;
}

export interface Verified {
  readonly computed: number;
  readonly reference: number;
  /** Largest |computed - reference| that passes. */
  readonly tolerance: number;
  readonly unit: string;
}
