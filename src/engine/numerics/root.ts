import { requireThat } from "#base";

/**
 * A root of a continuous function between two points where its signs differ.
 *
 * Regula falsi with the Illinois correction, guarded by bisection: never leaves the bracket, converges faster than
 * linearly.
 *
 * @param lower, upper  ends of the bracket, in any order
 * @param tolerance     width of the bracket at which to stop, > 0
 * @throws RangeError if the function has the same sign at both ends
 *
 * Accuracy: the root lies within `tolerance` of the answer, or the function there is exactly 0.
 * Source: [dowell-jarratt-1971]
 */
export function bracketedRoot(f: (x: number) => number, lower: number, upper: number, tolerance: number): number {
  let a = lower;
  let b = upper;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  requireThat(fa * fb < 0, "f(lower), f(upper)", `${fa}, ${fb}`, "values of opposite signs");
  let lastSide = 0;
  for (let step = 0; step < 200 && Math.abs(b - a) > tolerance; step++) {
    let x = b - (fb * (b - a)) / (fb - fa);
    // Every third step halves the bracket, so that a flat function cannot crawl.
    if (step % 3 === 2 || !Number.isFinite(x)) x = (a + b) / 2;
    const fx = f(x);
    if (fx === 0) return x;
    if (fx * fb < 0) {
      a = b;
      fa = fb;
      lastSide = 0;
    } else {
      if (lastSide === 1) fa /= 2;
      lastSide = 1;
    }
    b = x;
    fb = fx;
  }
  return (a + b) / 2;
}
