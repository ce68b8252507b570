/**
 * A sentence to be put into words elsewhere: `key` names it, `values` fill it. The shape is that of the messages in
 * the checks, so that `say` in src/words takes both.
 */
export interface Note {
  readonly key: string;
  readonly values: Readonly<
    Record<string, string | number | { readonly value: number; readonly quantity: "temperature" | "cone" | "count" }>
  >;
}
