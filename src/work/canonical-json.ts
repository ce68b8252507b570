/** A value as JSON that is the same whatever the order of its keys was; keys without a value are left out. */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_key, each: unknown) => {
    if (typeof each !== "object" || each === null || Array.isArray(each)) return each;
    const entries = Object.entries(each).filter(([, inner]) => inner !== undefined);
    return Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
  });
}
