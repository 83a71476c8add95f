/**
 * Random figures from 0 up to but not including 1, the same for the same seed, in steps of 2^-32.
 * Source: Blackman and Vigna, Scrambled linear pseudorandom number generators, ACM TOMS 47 (2021) 36: xoshiro128**,
 * seeded by splitmix (public domain).
 */
export function seededRandom(seed: number): () => number {
  let state = seed | 0;
  const next = (): number => {
    state = (state + 0x9e3779b9) | 0;
    let z = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return z ^ (z >>> 15);
  };
  let [a, b, c, d] = [next(), next(), next(), next()];
  return () => {
    const scrambled = Math.imul(b, 5);
    const result = Math.imul((scrambled << 7) | (scrambled >>> 25), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    return result / 4294967296;
  };
}
