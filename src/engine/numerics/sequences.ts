import { requireThat } from "#base";

/*
 * Low-discrepancy sequences: points that fill a unit cube more evenly than random ones, so that an average over n
 * of them comes closer to the integral.
 */

const mostDimensions = 6;

/**
 * Polynomial degree, inner coefficients and initial direction numbers of dimensions 2..6.
 *
 * Source: [joe-kuo-2008]
 */
const primitives: readonly (readonly [number, number, readonly number[]])[] = [
  [1, 0, [1]],
  [2, 1, [1, 3]],
  [3, 1, [1, 3, 1]],
  [3, 2, [1, 1, 1]],
  [4, 1, [1, 1, 3, 3]],
];

function directionNumbers(dimension: number): Uint32Array {
  const v = new Uint32Array(32);
  if (dimension === 0) {
    for (let bit = 0; bit < 32; bit++) v[bit] = 1 << (31 - bit);
    return v;
  }
  const [degree, inner, initial] = primitives[dimension - 1];
  for (let bit = 0; bit < 32; bit++) {
    if (bit < degree) {
      v[bit] = initial[bit] << (31 - bit);
      continue;
    }
    let number = v[bit - degree] ^ (v[bit - degree] >>> degree);
    for (let k = 1; k < degree; k++) if ((inner >>> (degree - 1 - k)) & 1) number ^= v[bit - k];
    v[bit] = number;
  }
  return v;
}

/**
 * The first `count` points of the Sobol sequence, Owen-scrambled: point i's coordinate d is
 * `[i * dimensions + d]` / 2^32, each in 0..2^32-1.
 *
 * Every run of 2^m points that begins at a multiple of 2^m is a digital net. Adding one random number to all
 * coordinates by exclusive or keeps that and makes an average over them unbiased.
 *
 * @param dimensions 1..6
 * @param count      at most 2^31
 * @param seed       any whole number; a negative one leaves the plain sequence unscrambled
 *
 * Source: [sobol-1967], [joe-kuo-2008]; scrambling by hash [burley-2020]
 */
export function sobolPoints(dimensions: number, count: number, seed: number): Uint32Array {
  requireThat(dimensions >= 1 && dimensions <= mostDimensions, "dimensions", dimensions, `1 to ${mostDimensions}`);
  const points = new Uint32Array(count * dimensions);
  const plain = new Uint32Array(count);
  for (let d = 0; d < dimensions; d++) {
    const v = directionNumbers(d);
    const scramble = mix32((seed >>> 0) ^ Math.imul(d + 1, 0x9e3779b9));
    for (let i = 0; i < count; i++) {
      // One more direction number than the point whose index lacks the lowest digit.
      if (i > 0) plain[i] = plain[i & (i - 1)] ^ v[31 - Math.clz32(i & -i)];
      points[i * dimensions + d] = seed < 0 ? plain[i] : owenScramble(plain[i], scramble);
    }
  }
  return points;
}

/** Permutes the binary digits so that each depends only on those above it: a random nested uniform scramble. */
function owenScramble(word: number, seed: number): number {
  let x = reverseBits(word);
  x = (x + seed) | 0;
  x ^= Math.imul(x, 0x6c50b47c);
  x ^= Math.imul(x, 0xb82f1e52);
  x ^= Math.imul(x, 0xc7afe638);
  x ^= Math.imul(x, 0x8d22f6e6);
  return reverseBits(x);
}

function reverseBits(word: number): number {
  let x = word;
  x = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  x = ((x >>> 2) & 0x33333333) | ((x & 0x33333333) << 2);
  x = ((x >>> 4) & 0x0f0f0f0f) | ((x & 0x0f0f0f0f) << 4);
  x = ((x >>> 8) & 0x00ff00ff) | ((x & 0x00ff00ff) << 8);
  return ((x >>> 16) | (x << 16)) >>> 0;
}

/** A well-mixed 32-bit word from any 32-bit word, one to one. */
export function mix32(word: number): number {
  let x = word | 0;
  x = Math.imul(x ^ (x >>> 16), 0x21f0aaad);
  x = Math.imul(x ^ (x >>> 15), 0x735a2d97);
  return (x ^ (x >>> 15)) >>> 0;
}
