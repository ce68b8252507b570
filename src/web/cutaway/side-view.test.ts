import { expect, test } from "vitest";
import { outlinePoints } from "#work";
import { acrossOf, backHalf, cutStep, depthOf, fromTheFront, sideOf, sideView } from "./side-view.ts";

const front = sideView(fromTheFront);

test("from the front, the kiln's right is right and its back is behind the cut", () => {
  expect(acrossOf(front, 0.2, 0)).toBeCloseTo(0.2, 12);
  expect(depthOf(front, 0, 0.2)).toBeCloseTo(-0.2, 12);
  expect(depthOf(front, 0, -0.2)).toBeCloseTo(0.2, 12);
});

test("turning the cut twelve times comes back to the same view", () => {
  const back = sideView(fromTheFront + 12 * cutStep);
  expect(acrossOf(back, 0.1, 0.05)).toBeCloseTo(acrossOf(front, 0.1, 0.05), 12);
  expect(depthOf(back, 0.1, 0.05)).toBeCloseTo(depthOf(front, 0.1, 0.05), 12);
});

test("a full shelf is cut and as wide as it is; a half shelf ends at the axis, stands behind, or is cut away", () => {
  const full = outlinePoints({ kind: "disc", radius: 0.265 });
  expect(backHalf(front, full)).toMatchObject({ isCut: true });
  expect(backHalf(front, full)!.to).toBeCloseTo(0.265, 3);
  const half = outlinePoints({ kind: "half-disc", radius: 0.265 });
  const left = backHalf(front, half)!;
  expect(left.from).toBeCloseTo(-0.265, 12);
  expect(left.to).toBeCloseTo(0, 12);
  expect(left.isCut).toBe(true);
  const behind = backHalf(
    front,
    outlinePoints({ kind: "half-disc", radius: 0.265 }, { x: 0, y: 0, angle: -Math.PI / 2 }),
  );
  expect(behind).toMatchObject({ isCut: false });
  expect(behind!.to).toBeCloseTo(0.265, 12);
  expect(
    backHalf(front, outlinePoints({ kind: "half-disc", radius: 0.265 }, { x: 0, y: 0, angle: Math.PI / 2 })),
  ).toBeNull();
});

test("a sensor is in the wall of the cut, on the back wall, or cut away", () => {
  expect(sideOf(front, 0)).toBe("right");
  expect(sideOf(front, Math.PI)).toBe("left");
  expect(sideOf(front, Math.PI / 2)).toBe("back");
  expect(sideOf(front, -Math.PI / 2)).toBe("away");
  expect(sideOf(sideView(fromTheFront + Math.PI / 2), Math.PI / 2)).toBe("right");
});
