/** The words of a command as a shell would split it: quotes hold words together, # begins a comment. */
export function wordsOf(line: string): string[] {
  const words: string[] = [];
  for (const match of line.matchAll(/"([^"]*)"|'([^']*)'|(#.*)|(\S+)/g)) {
    if (match[3] !== undefined) break;
    words.push(match[1] ?? match[2] ?? match[4]!);
  }
  return words;
}
