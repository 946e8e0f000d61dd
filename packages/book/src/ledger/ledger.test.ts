import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Desk } from '../testing/desk.ts';
import { chainFaults, inOrder, isBefore, merged, parted } from './ledger.ts';
import { readEntry } from './read-entry.ts';

const note = (text: string) => ({ text });

describe('before and beside', () => {
  it('is decided by what a writer had folded, not by clocks or ticks', () => {
    const a = new Desk('a');
    const first = a.write('note', note('1'));
    const b = a.beside('b');
    const knowing = b.write('note', note('2'));
    const stranger = new Desk('c').write('note', note('3'));
    expect(isBefore(first, knowing)).toBe(true);
    expect(isBefore(knowing, first)).toBe(false);
    expect(isBefore(stranger, knowing)).toBe(false);
    expect(isBefore(knowing, stranger)).toBe(false);
  });

  it('holds along one device, and of no entry to itself', () => {
    const a = new Desk('a');
    const [first, second] = [a.write('note', note('1')), a.write('note', note('2'))];
    expect(isBefore(first, second)).toBe(true);
    expect(isBefore(first, first)).toBe(false);
  });

  it('never runs in a circle, whatever a made-up entry claims to have seen', () => {
    const a = { ...new Desk('a').write('note', note('1')), seen: { b: 9 } };
    const b = { ...new Desk('b').write('note', note('2')), seen: { a: 9 } };
    expect([isBefore(a, b), isBefore(b, a)].filter(Boolean)).toHaveLength(1);
  });
});

describe('merging piles', () => {
  const a = new Desk('a');
  for (const text of ['1', '2', '3']) a.write('note', note(text));
  const b = new Desk('b', a.entries.slice(0, 1));
  for (const text of ['4', '5', '6']) b.write('note', note(text));
  const all = merged(a.entries, b.entries);

  it('is a union: each id once, in folding order, the same either way round and again', () => {
    expect(new Set(all.map(({ id }) => id)).size).toBe(6);
    expect(all).toEqual([...all].sort(inOrder));
    expect(merged(b.entries, a.entries)).toEqual(all);
    expect(merged(all, all)).toEqual(all);
  });

  it('is the same for any split of the pile', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }), (here) => {
        const [one, two] = [all.filter((_, i) => here[i]), all.filter((_, i) => !here[i])];
        expect(merged(one, two)).toEqual(all);
      }),
    );
  });

  it('keeps two different entries under one id, in the same order whichever came first, and the same one is folded', () => {
    const honest = all[0]!;
    const forged = { ...honest, body: { text: 'forged' } };
    const both = merged([honest], [forged]);
    expect(both).toHaveLength(2);
    expect(merged([forged], [honest])).toEqual(both);
    expect(merged(both, [structuredClone(honest), forged])).toEqual(both);
    expect(parted(both)).toEqual({
      ledger: [both[0]],
      reused: [{ id: honest.id, folded: both[0], others: [both[1]] }],
    });
    // One page with one id is no fork, and the page after it follows from one of the two.
    expect(chainFaults(merged(all, [forged]))).toEqual({ forks: [], broken: [] });
  });
});

describe('the chain of a device', () => {
  it('of honest entries has nothing wrong with it, in any order of arrival', () => {
    const a = new Desk('a');
    for (const text of ['1', '2', '3']) a.write('note', note(text));
    expect(chainFaults([...a.entries].reverse())).toEqual({ forks: [], broken: [] });
    for (const entry of a.entries) expect(readEntry(entry)).toEqual({ ok: true, value: entry });
  });

  it('shows a copied directory that went on under the same name as a fork, and keeps both pages', () => {
    const a = new Desk('a');
    a.write('note', note('1'));
    const copy = a.copied();
    const pages = [a.write('note', note('2')), copy.write('note', note('other 2'))];
    const all = merged(a.entries, copy.entries);
    expect(all).toHaveLength(3);
    expect(chainFaults(all)).toEqual({
      forks: [{ device: 'a', n: 2, entries: pages.map(({ id }) => id).sort() }],
      broken: [],
    });
  });

  it('shows a page torn out, a page rewritten and a first page that claims an earlier one', () => {
    const a = new Desk('a');
    const [one, two, three] = ['1', '2', '3'].map((text) => a.write('note', note(text)));
    const at = (why: string, n: number, id: string) => [{ entry: id, device: 'a', n, why }];
    expect(chainFaults([one!, three!]).broken).toEqual(at('predecessor-missing', 3, three!.id));
    expect(chainFaults([one!, { ...two!, who: 'another' }, three!]).broken).toEqual(
      at('predecessor-differs', 3, three!.id),
    );
    expect(chainFaults([{ ...one!, prev: 'f'.repeat(64) }]).broken).toEqual(
      at('predecessor-differs', 1, one!.id),
    );
  });
});
