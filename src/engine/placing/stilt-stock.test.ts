import { expect, it } from "vitest";
import type { Item } from "./kiln-column.ts";
import type { PlacingRequest } from "./proposal.ts";
import { withinStiltStock } from "./stilt-stock.ts";

const item = (id: string, stiltId: string | null, worth: number): Item =>
  ({ piece: { id, stiltId }, worth }) as unknown as Item;
const stock = (count: number): PlacingRequest =>
  ({ furniture: { stilts: [{ id: "small", count }] } }) as unknown as PlacingRequest;
const ids = (items: readonly Item[]): readonly string[] => items.map(({ piece }) => piece.id);

it("gives the stilts in stock to the pieces of most worth, and needs none for wiped feet", () => {
  const items = [item("a", "small", 1), item("b", "small", 3), item("c", null, 0.1), item("d", "small", 2)];
  const { kept, without } = withinStiltStock(stock(2), items);
  expect(ids(kept)).toEqual(["b", "c", "d"]);
  expect(ids(without)).toEqual(["a"]);
  expect(ids(withinStiltStock(stock(3), items).without)).toEqual([]);
});

it("counts the stilts of pieces that stand already, and none of a kind that is not in stock", () => {
  const standing = [item("s", "small", 0)];
  expect(ids(withinStiltStock(stock(1), [item("a", "small", 9)], standing).without)).toEqual(["a"]);
  expect(ids(withinStiltStock(stock(9), [item("a", "large", 9)]).without)).toEqual(["a"]);
});
