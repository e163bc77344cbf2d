/**
 * Seeded random numbers in 0 ≤ r < 1: the same seed gives the same row on every machine (32-bit integer arithmetic only).
 * Generator: a 32-bit counter through a multiply-xor-shift mixer ("mulberry32", public domain; from memory).
 */
export function seededRandom(seed: number): () => number {
  let state = Math.trunc(seed) | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let z = Math.imul(state ^ (state >>> 15), 1 | state);
    z = (z + Math.imul(z ^ (z >>> 7), 61 | z)) ^ z;
    return ((z ^ (z >>> 14)) >>> 0) / 4294967296;
  };
}
