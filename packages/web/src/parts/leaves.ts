import { leafOfFewestTries, leavesSaid, leavesWords, stackToTry } from '@fettle/book';
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

/** The leaves owned and the stacks laid of them, thinnest first; a stack is one rung. */
export function rungsOf(owned: readonly OwnedLeaf[], stacks: readonly string[]): OwnedLeaf[] {
  const laid = stacks.flatMap((text) => {
    const read = leavesSaid(text, 'goes');
    const thickness = read.ok ? parseQuantity(read.value.together, 'length') : undefined;
    return thickness?.ok ? [{ text, size: thickness.value.value }] : [];
  });
  return [...owned, ...laid].sort((a, b) => a.size - b.size);
}

/** What each leaf tried answered. */
export type Tried = Readonly<Record<string, 'goes' | 'drags' | 'stops'>>;

/** What the leaves tried say together; an issue where they contradict each other. */
export function bracketTried(owned: readonly OwnedLeaf[], tried: Tried): Outcome<Bracket> {
  // A leaf that drags goes, too.
  const of = (...answers: readonly string[]): number[] =>
    owned.filter(({ text }) => answers.includes(tried[text] ?? '')).map(({ size }) => size);
  return bracketOf(of('goes', 'drags'), of('stops'));
}

/** Leaves to lay together where no single one that is left would decide, as the text of their rung. */
export function stackAdvised(
  owned: readonly OwnedLeaf[],
  rungs: readonly OwnedLeaf[],
  tried: Tried,
  limits: { readonly lower?: number; readonly upper?: number },
): string | undefined {
  const bracket = bracketTried(rungs, tried);
  if (!bracket.ok || (bracket.value.goes === undefined && bracket.value.stops === undefined))
    return undefined;
  const single = leafOfFewestTries(
    bracket.value,
    rungs.map(({ size }) => size),
    limits,
  );
  if (single && single.decides > 0) return undefined;
  const found = stackToTry([owned], bracket.value, limits);
  return found && leavesWords.stackWords(found.stack);
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
