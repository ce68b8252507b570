/**
 * Reads values out of a case's JSON; every fault names the place, what stands there and what would do.
 */
export class CaseReader {
  private readonly value: unknown;
  readonly place: string;

  constructor(value: unknown, place = "") {
    this.value = value;
    this.place = place;
  }

  fault(expected: string): CaseFault {
    const where = this.place === "" ? "the file" : this.place;
    const found = this.value === undefined ? "is missing" : `is ${JSON.stringify(this.value)?.slice(0, 60)}`;
    return new CaseFault(`${where} ${found}; give ${expected}`);
  }

  has(key: string): boolean {
    return typeof this.value === "object" && this.value !== null && key in this.value;
  }

  at(key: string): CaseReader {
    if (typeof this.value !== "object" || this.value === null || Array.isArray(this.value)) {
      throw this.fault("an object in braces");
    }
    return new CaseReader(
      (this.value as Record<string, unknown>)[key],
      this.place === "" ? key : `${this.place}.${key}`,
    );
  }

  list(atLeast: number): CaseReader[] {
    if (!Array.isArray(this.value) || this.value.length < atLeast) {
      throw this.fault(atLeast === 0 ? "a list" : `a list of ${atLeast} or more`);
    }
    return this.value.map((value: unknown, k) => new CaseReader(value, `${this.place}[${k}]`));
  }

  number(low: number, high = Infinity): number {
    const { value } = this;
    if (typeof value !== "number" || !Number.isFinite(value) || value < low || value > high) {
      const range =
        low === -Infinity
          ? "a number"
          : high < Infinity
            ? `a number from ${low} to ${high}`
            : `a number, ${low} or more`;
      throw this.fault(range);
    }
    return value;
  }

  positive(): number {
    const { value } = this;
    if (typeof value !== "number" || !Number.isFinite(value) || value <= 0) throw this.fault("a number above 0");
    return value;
  }

  whole(low: number, high: number): number {
    const value = this.number(low, high);
    if (!Number.isInteger(value)) throw this.fault(`a whole number from ${low} to ${high}`);
    return value;
  }

  /** An id: text or a number, given back as it stands. */
  id(): string | number {
    const { value } = this;
    if (typeof value !== "string" && typeof value !== "number") throw this.fault("a text or a number as id");
    return value;
  }
}

/** Bad input in a case: one line that names place and remedy. Thrown and caught inside `work/cases`. */
export class CaseFault extends Error {}
