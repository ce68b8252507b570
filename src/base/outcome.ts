/**
 * The result of work that can fail for reasons the caller must handle.
 *
 * Three kinds of failure never mix: a wrong call throws (see `precondition.ts`); bad input comes back as
 * `ok: false` with the place and the remedy; numerics that gave up come back as `ok: false` with what was reached.
 */
export type Outcome<Value, Failure> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly failure: Failure };

export function success<Value>(value: Value): { readonly ok: true; readonly value: Value } {
  return { ok: true, value };
}

export function failure<Failure>(failure: Failure): { readonly ok: false; readonly failure: Failure } {
  return { ok: false, failure };
}
