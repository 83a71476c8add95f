/**
 * Random whole numbers from 0 to 2^32 - 1, the same for the same seed.
 * Source: Blackman and Vigna, Scrambled linear pseudorandom number generators, ACM TOMS 47 (2021) 36: xoshiro128**,
 * seeded by splitmix (public domain).
 */
export function randomBits(seed: number): () => number {
  const fill = randomFill(seed);
  const stock = new Uint32Array(STOCK);
  let next = STOCK;
  return () => {
    if (next === STOCK) {
      fill(stock);
      next = 0;
    }
    return stock[next++] as number;
  };
}

const STOCK = 256;

/** Fills lists with the same random whole numbers as `randomBits` gives one by one, which is much faster for many. */
export function randomFill(seed: number): (bits: Uint32Array) => void {
  let state = seed | 0;
  const next = (): number => {
    state = (state + 0x9e3779b9) | 0;
    let z = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return z ^ (z >>> 15);
  };
  const kept = Int32Array.of(next(), next(), next(), next());
  return (bits) => {
    let [a, b, c, d] = kept as unknown as [number, number, number, number];
    for (let i = 0; i < bits.length; i++) {
      const scrambled = Math.imul(b, 5);
      bits[i] = Math.imul((scrambled << 7) | (scrambled >>> 25), 9);
      const shifted = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= shifted;
      d = (d << 11) | (d >>> 21);
    }
    kept.set([a, b, c, d]);
  };
}

/** Random figures from 0 up to but not including 1, in steps of 2^-32. */
export function seededRandom(seed: number): () => number {
  const bits = randomBits(seed);
  return () => bits() / 4294967296;
}
