/** The known word closest to a mistyped one, if any is close: at most a third of its letters differ. */
export function nearestWord(word: string, known: readonly string[]): string | undefined {
  if (word.length > 60) return undefined;
  let best: { word: string; distance: number } | undefined;
  for (const candidate of known) {
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase());
    if (distance <= Math.max(1, Math.floor(candidate.length / 3)) && (!best || distance < best.distance))
      best = { word: candidate, distance };
  }
  return best?.word;
}

/** Letters to insert, delete or replace. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next.push(
        Math.min(
          (row[j] ?? 0) + 1,
          (next[j - 1] ?? 0) + 1,
          (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1),
        ),
      );
    row = next;
  }
  return row[b.length] ?? 0;
}
