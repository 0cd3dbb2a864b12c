/** Letters to change, add or drop to make one word the other. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}

const distance = (word: string, candidate: string): number =>
  candidate.startsWith(word) ? 0 : candidate.includes(word) ? 1 : editDistance(word, candidate);

/**
 * The known word that an unknown one was probably meant to be; undefined when none is near.
 * Never throws.
 */
export function nearestWord(word: string, known: readonly string[]): string | undefined {
  const ranked = known
    .map((candidate) => ({ candidate, far: distance(word.toLowerCase(), candidate.toLowerCase()) }))
    .sort((a, b) => a.far - b.far);
  const nearest = ranked[0];
  return nearest && nearest.far <= Math.max(2, word.length / 3) ? nearest.candidate : undefined;
}
