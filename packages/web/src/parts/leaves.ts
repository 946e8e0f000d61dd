import { type Bracket, bracketOf, nextLeaf, type Outcome, parseQuantity } from '@fettle/core';

/** A feeler leaf as its owner calls it, and its thickness [m]. */
export interface OwnedLeaf {
  readonly text: string;
  readonly size: number;
}

/** The leaves owned, thinnest first. */
export const leavesOwned = (texts: readonly string[]): OwnedLeaf[] =>
  texts
    .flatMap((text) => {
      const read = parseQuantity(text, 'length');
      return read.ok ? [{ text, size: read.value.value }] : [];
    })
    .sort((a, b) => a.size - b.size);

/** What each leaf tried answered. */
export type Tried = Readonly<Record<string, 'goes' | 'drags' | 'stops'>>;

/** What the leaves tried say together; an issue where they contradict each other. */
export function bracketTried(owned: readonly OwnedLeaf[], tried: Tried): Outcome<Bracket> {
  // A leaf that drags goes, too.
  const of = (...answers: readonly string[]): number[] =>
    owned.filter(({ text }) => answers.includes(tried[text] ?? '')).map(({ size }) => size);
  return bracketOf(of('goes', 'drags'), of('stops'));
}

/** The leaf best tried next; undefined when the verdict stands or none is left between. */
export function leafAdvised(
  owned: readonly OwnedLeaf[],
  tried: Tried,
  limits: { readonly lower?: number; readonly upper?: number },
): OwnedLeaf | undefined {
  const bracket = bracketTried(owned, tried);
  if (!bracket.ok) return undefined;
  const leaf = nextLeaf(
    bracket.value,
    owned.map(({ size }) => size),
    limits,
  );
  return owned.find(({ size }) => size === leaf);
}
