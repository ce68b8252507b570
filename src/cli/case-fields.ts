/** A case file that cannot be run: the place, what stands there and what would do. */
export class CaseFault extends Error {
  constructor(place: string, value: unknown, expected: string) {
    const shown = value === undefined ? "missing" : shortText(value);
    super(`${place} is ${shown}; ${expected}`);
    this.name = "CaseFault";
  }
}

function shortText(value: unknown): string {
  const text = JSON.stringify(value);
  return text.length > 40 ? `${text.slice(0, 37)}...` : text;
}

/** A JSON object whose fields are read one by one, each with its place in the file. */
export interface Fields {
  readonly has: (name: string) => boolean;
  readonly number: (name: string) => number;
  readonly fields: (name: string) => Fields;
  readonly numbers: (name: string) => readonly number[];
  readonly texts: (name: string) => readonly string[];
  /** Rows of numbers, each `width` long where that is given. */
  readonly rows: (name: string, width?: number) => readonly (readonly number[])[];
}

/** @param place  of the object in the file; "" for the file itself */
export function fieldsOf(value: unknown, place: string): Fields {
  if (typeof value !== "object" || value === null || Array.isArray(value)) {
    throw new CaseFault(place || "the file", value, "give a JSON object");
  }
  const record = value as Record<string, unknown>;
  const at = (name: string): string => (place === "" ? name : `${place}.${name}`);
  const list = (name: string): readonly unknown[] => {
    const found = record[name];
    if (!Array.isArray(found)) throw new CaseFault(at(name), found, "give a list");
    return found;
  };
  const number = (found: unknown, where: string): number => {
    if (typeof found !== "number" || !Number.isFinite(found)) throw new CaseFault(where, found, "give a number");
    return found;
  };
  return {
    has: (name) => record[name] !== undefined,
    number: (name) => number(record[name], at(name)),
    fields: (name) => fieldsOf(record[name], at(name)),
    numbers: (name) => list(name).map((each, i) => number(each, `${at(name)}[${i}]`)),
    texts: (name) =>
      list(name).map((each, i) => {
        if (typeof each !== "string") throw new CaseFault(`${at(name)}[${i}]`, each, "give a text");
        return each;
      }),
    rows: (name, width) =>
      list(name).map((row, i) => {
        const where = `${at(name)}[${i}]`;
        if (!Array.isArray(row) || (width !== undefined && row.length !== width)) {
          throw new CaseFault(where, row, width === undefined ? "give a list of numbers" : `give ${width} numbers`);
        }
        return row.map((each, j) => number(each, `${where}[${j}]`));
      }),
  };
}
