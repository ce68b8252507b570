import type { Given, Terminal } from "./command.ts";

/** The store's file: --store, else SPYHOLE_DATA, else data/studio.sqlite. */
export function storeFile(given: Given, terminal: Terminal): string {
  return given.text("store") ?? terminal.env.SPYHOLE_DATA ?? "data/studio.sqlite";
}
