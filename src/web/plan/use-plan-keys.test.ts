import type { KeyboardEvent } from "react";
import { expect, test, vi } from "vitest";
import type { PlacedPiece } from "#engine/kiln";
import type { Settled } from "./settle.ts";
import { onPlanKey, type PlanKeyOptions } from "./use-plan-keys.ts";

const piece = (pieceId: string, x: number): PlacedPiece => ({ pieceId, shelfId: "s", x, y: 0, angle: 0, fixed: false });
const pieces = [piece("a", 0), piece("b", 0.1), piece("c", -0.1)];

function press(key: string, options: Partial<PlanKeyOptions> = {}, held: Partial<KeyboardEvent> = {}) {
  const calls = {
    select: vi.fn(),
    step: vi.fn(),
    turn: vi.fn(),
    moveTo: vi.fn(),
    shelf: vi.fn(),
    takeOut: vi.fn(),
    escape: vi.fn(),
  };
  const used = onPlanKey(
    { key, shiftKey: false, altKey: false, ctrlKey: false, metaKey: false, ...held } as KeyboardEvent,
    {
      shelfId: "s",
      pieces,
      picked: null,
      canMove: true,
      verdictAt: () => ({ legal: true, reason: null }),
      onSelect: calls.select,
      onStep: calls.step,
      onTurn: calls.turn,
      onMoveTo: calls.moveTo,
      onSwap: undefined,
      onTakeOut: calls.takeOut,
      onShelf: calls.shelf,
      onHelp: undefined,
      onEscape: calls.escape,
      ...options,
    },
  );
  return { ...calls, used };
}

test("N and P go round the pieces by number", () => {
  expect(press("n").select).toHaveBeenCalledWith("a");
  expect(press("p").select).toHaveBeenCalledWith("c");
  expect(press("N", { picked: pieces[2] }).select).toHaveBeenCalledWith("a");
  expect(press("p", { picked: pieces[1] }).select).toHaveBeenCalledWith("a");
});

test.each([
  ["ArrowRight", {}, 0.105, 0],
  ["ArrowLeft", { shiftKey: true }, 0.099, 0],
  ["ArrowUp", { altKey: true }, 0.1, 0.025],
  ["ArrowDown", {}, 0.1, -0.005],
] as const)("%s %o moves the picked piece", (key, held, x, y) => {
  const { step, used } = press(key, { picked: pieces[1] }, held);
  const { at } = step.mock.calls[0][0] as Settled;
  expect(used).toBe(true);
  expect(at.x).toBeCloseTo(x, 12);
  expect(at.y).toBeCloseTo(y, 12);
});

test("arrows pick a piece while none is picked", () => {
  expect(press("ArrowDown").select).toHaveBeenCalledWith("a");
  expect(press("ArrowUp").select).toHaveBeenCalledWith("c");
});

test("R turns by 15°, with Shift back, and not where it may not stand", () => {
  const turned = press("r", { picked: pieces[0] }).turn.mock.calls[0][0] as Settled;
  expect(turned.at.angle).toBeCloseTo(Math.PI / 12, 12);
  const back = press("R", { picked: pieces[0] }, { shiftKey: true }).turn.mock.calls[0][0] as Settled;
  expect(back.at.angle).toBeCloseTo(-Math.PI / 12, 12);
  const refused = press("r", {
    picked: pieces[0],
    verdictAt: ({ angle }) =>
      angle === 0 ? { legal: true, reason: null } : { legal: false, reason: "handle over the edge" },
  }).turn.mock.calls[0][0] as Settled;
  expect(refused.at.angle).toBe(0);
  expect(refused.verdict.reason).toBe("handle over the edge");
});

test("other keys do what they name, and the browser keeps its own", () => {
  expect(press("m", { picked: pieces[0] }).moveTo).toHaveBeenCalledWith("a");
  expect(press("m").used).toBe(false);
  expect(press("Delete", { picked: pieces[1] }).takeOut).toHaveBeenCalledWith("b");
  expect(press("[").shelf).toHaveBeenCalledWith(-1);
  expect(press("]").shelf).toHaveBeenCalledWith(1);
  expect(press("Escape").escape).toHaveBeenCalled();
  expect(press("z", {}, { ctrlKey: true }).used).toBe(false);
  expect(press("Tab").used).toBe(false);
});
