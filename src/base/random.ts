/** A stream of reproducible random numbers: same seed, same numbers, on every machine. */
export interface Random {
  /** Uniform in [0, 1). */
  readonly uniform: () => number;
  /** Uniform whole number in 0..below-1. */
  readonly below: (below: number) => number;
  /** Standard normal. */
  readonly normal: () => number;
}

/**
 * Seeded random stream (xoshiro128** started by splitmix32).
 *
 * @param seed  any whole number; only its low 32 bits count
 *
 * Accuracy: 32 random bits per uniform; period 2^128 - 1.
 * Source: [blackman-vigna-2021]
 */
export function seededRandom(seed: number): Random {
  let mix = seed >>> 0;
  const next32 = (): number => {
    mix = (mix + 0x9e3779b9) >>> 0;
    let word = mix;
    word = Math.imul(word ^ (word >>> 16), 0x21f0aaad);
    word = Math.imul(word ^ (word >>> 15), 0x735a2d97);
    return (word ^ (word >>> 15)) >>> 0;
  };
  let a = next32();
  let b = next32();
  let c = next32();
  let d = next32();
  const rotateLeft = (word: number, bits: number): number => ((word << bits) | (word >>> (32 - bits))) >>> 0;
  const word = (): number => {
    const result = Math.imul(rotateLeft(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = (b << 9) >>> 0;
    c = (c ^ a) >>> 0;
    d = (d ^ b) >>> 0;
    b = (b ^ c) >>> 0;
    a = (a ^ d) >>> 0;
    c = (c ^ shifted) >>> 0;
    d = rotateLeft(d, 11);
    return result;
  };
  const uniform = (): number => word() / 4294967296;
  return {
    uniform,
    below: (below) => Math.floor(uniform() * below),
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}
