import { describe, expect, test } from "vitest";
import { settle, step, type PieceMove, type VerdictAt } from "./settle.ts";

const piece: PieceMove = { pieceId: "p", shelfId: "s", x: 0, y: 0, angle: 0 };

/** A round shelf of 0.2 m with a mug of 0.04 m standing at (0.1, 0); the piece is 0.04 m too. */
const shelf: VerdictAt = ({ x, y }) => {
  if (Math.hypot(x, y) > 0.16) return { legal: false, reason: "over the edge" };
  if (Math.hypot(x - 0.1, y) < 0.08) return { legal: false, reason: "too near no. 2" };
  return { legal: true, reason: null };
};

describe("a dragged piece", () => {
  test("stays where a legal spot was wanted", () => {
    expect(settle({ ...piece, x: -0.05 }, shelf, 0.03).at.x).toBe(-0.05);
  });

  test("comes to lie against its neighbour, not a ring away", () => {
    const { at, verdict } = settle({ ...piece, x: 0.03, y: 0.001 }, shelf, 0.03);
    expect(verdict.legal).toBe(true);
    const gap = Math.hypot(at.x - 0.1, at.y) - 0.08;
    expect(gap).toBeGreaterThanOrEqual(0);
    expect(gap).toBeLessThan(0.0005);
  });

  test("far from any legal spot stays at the pointer with the reason", () => {
    const { at, verdict } = settle({ ...piece, x: 0.5 }, shelf, 0.03);
    expect(at.x).toBe(0.5);
    expect(verdict).toEqual({ legal: false, reason: "over the edge" });
  });
});

describe("a step by the keyboard", () => {
  test("goes the whole way where it can", () => {
    expect(step(piece, { ...piece, x: -0.005 }, shelf).at.x).toBe(-0.005);
  });

  test("stops against what is in the way and says what", () => {
    const { at, verdict } = step(piece, { ...piece, x: 0.025 }, shelf);
    expect(at.x).toBeLessThanOrEqual(0.02);
    expect(at.x).toBeGreaterThan(0.0195);
    expect(verdict.reason).toBe("too near no. 2");
  });

  test("leads out of a spot that is not legal", () => {
    const { at } = step({ ...piece, x: 0.1 }, { ...piece, x: 0.075 }, shelf);
    expect(at.x).toBe(0.075);
  });
});
