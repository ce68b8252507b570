/**
 * Throws a RangeError that names the argument, its value and what was expected, unless `holds`.
 *
 * For wrong calls only: input from a user is answered with an `Outcome`.
 */
export function requireThat(holds: boolean, argument: string, value: unknown, expected: string): asserts holds {
  if (!holds) throw new RangeError(`${argument} is ${String(value)}; expected ${expected}`);
}

/** Throws a RangeError naming argument, value and unit, unless `value` is finite and above zero. */
export function requirePositive(value: number, argument: string, unit: string): void {
  requireThat(Number.isFinite(value) && value > 0, argument, value, `a finite number above 0 ${unit}`);
}

/** Throws a RangeError naming argument, value and unit, unless `value` is finite and not below zero. */
export function requireNotNegative(value: number, argument: string, unit: string): void {
  requireThat(Number.isFinite(value) && value >= 0, argument, value, `a finite number, 0 ${unit} or more`);
}
