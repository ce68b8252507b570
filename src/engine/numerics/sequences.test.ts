import { describe, expect, it } from "vitest";
import { mix32, sobolPoints } from "./sequences.ts";

const unit = 2 ** -32;

describe("Sobol points", () => {
  it("are the published first points, which are listed in Gray-code order [joe-kuo-2008], from memory", () => {
    const published = [
      [0, 0, 0],
      [0.5, 0.5, 0.5],
      [0.75, 0.25, 0.25],
      [0.25, 0.75, 0.75],
      [0.375, 0.375, 0.625],
      [0.875, 0.875, 0.125],
      [0.625, 0.125, 0.875],
      [0.125, 0.625, 0.375],
      [0.1875, 0.3125, 0.9375],
      [0.6875, 0.8125, 0.4375],
    ];
    const points = sobolPoints(3, 16, -1);
    published.forEach((point, i) => {
      const gray = i ^ (i >> 1);
      expect([0, 1, 2].map((d) => points[gray * 3 + d] * unit)).toEqual(point);
    });
  });

  for (const seed of [-1, 1, 2024]) {
    it(`put exactly one of 256 points into every elementary box of the first two dimensions, seed ${seed}`, () => {
      const points = sobolPoints(2, 256, seed);
      for (let bits = 0; bits <= 8; bits++) {
        const boxes = new Set<number>();
        for (let i = 0; i < 256; i++) {
          const column = Math.floor(points[i * 2] * unit * 2 ** bits);
          boxes.add(column * 2 ** (8 - bits) + Math.floor(points[i * 2 + 1] * unit * 2 ** (8 - bits)));
        }
        expect(boxes.size).toBe(256);
      }
    });
  }

  it("spread each of six dimensions over 1024 equal parts, one point in each", () => {
    const points = sobolPoints(6, 1024, 5);
    for (let d = 0; d < 6; d++) {
      expect(new Set(Array.from({ length: 1024 }, (_, i) => points[i * 6 + d] >>> 22)).size).toBe(1024);
    }
  });

  it("average a smooth function of four variables far better than random points do", () => {
    const n = 4096;
    const points = sobolPoints(4, n, 11);
    let sum = 0;
    for (let i = 0; i < n; i++) {
      let product = 1;
      for (let d = 0; d < 4; d++) product *= 1.5 * Math.sqrt(points[i * 4 + d] * unit);
      sum += product;
    }
    // Random points would be off by about 0.013 (standard deviation 0.83 over the root of n).
    expect(Math.abs(sum / n - 1)).toBeLessThan(0.001);
  });

  it("refuse a dimension it has no numbers for", () => {
    expect(() => sobolPoints(7, 4, 1)).toThrow(/dimensions is 7/);
  });
});

describe("mix32", () => {
  it("is one to one on a sample and flips about half the bits", () => {
    const words = new Set(Array.from({ length: 4096 }, (_, i) => mix32(i)));
    expect(words.size).toBe(4096);
    let flipped = 0;
    for (let i = 0; i < 4096; i++) {
      let difference = mix32(i) ^ mix32(i ^ (1 << (i % 32)));
      while (difference !== 0) {
        flipped++;
        difference &= difference - 1;
      }
    }
    expect(flipped / 4096).toBeGreaterThan(15.5);
    expect(flipped / 4096).toBeLessThan(16.5);
  });
});
