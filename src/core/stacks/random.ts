/**
 * Random whole numbers from 0 to 2^32 - 1, the same for the same seed.
 * Source: Blackman and Vigna, Scrambled linear pseudorandom number generators, ACM TOMS 47 (2021) 36: xoshiro128**,
 * seeded by splitmix (public domain).
 */
export function randomBits(seed: number): () => number {
  let state = seed | 0;
  const next = (): number => {
    state = (state + 0x9e3779b9) | 0;
    let z = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return z ^ (z >>> 15);
  };
  // Kept in an array of 32 bit numbers, as loose variables of that size are boxed anew with each draw.
  const s = Int32Array.of(next(), next(), next(), next());
  return () => {
    const b = s[1] as number;
    const c = (s[2] as number) ^ (s[0] as number);
    const d = (s[3] as number) ^ b;
    const scrambled = Math.imul(b, 5);
    s[1] = b ^ c;
    s[0] = (s[0] as number) ^ d;
    s[2] = c ^ (b << 9);
    s[3] = (d << 11) | (d >>> 21);
    return Math.imul((scrambled << 7) | (scrambled >>> 25), 9) >>> 0;
  };
}

/** Random figures from 0 up to but not including 1, in steps of 2^-32. */
export function seededRandom(seed: number): () => number {
  const bits = randomBits(seed);
  return () => bits() / 4294967296;
}
