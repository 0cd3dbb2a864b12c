/** Repeatable standard normal numbers: G. Marsaglia's xorshift (2003) by the formula of Box and Muller (1958). */
export function normals(seed: number): () => number {
  let state = (Math.imul(seed, 0x9e3779b1) ^ 0x7f4a7c15) >>> 0 || 1;
  const uniform = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 2 ** 32;
  };
  for (let warm = 0; warm < 20; warm++) uniform();
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
