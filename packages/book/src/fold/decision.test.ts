import { describe, expect, it } from 'vitest';
import type { Body, Kind } from '../ledger/bodies.ts';
import { readSheet } from '../sheet/read-sheet.ts';
import { Desk } from '../testing/desk.ts';
import { inches, tinySheet } from '../testing/tiny-sheet.ts';
import type { Book } from './book.ts';
import { foldedBook } from './fold.ts';

const TINY = tinySheet({ characteristics: [inches('shaft.size')] });
const OTHER = tinySheet({ title: 'Another', characteristics: [inches('shaft.size')] });
const SHEETS = new Map([...TINY.sheets, ...OTHER.sheets]);

interface Question<K extends Kind = Kind> {
  readonly kind: K;
  readonly answers: readonly [Body<K>, Body<K>];
  /** The answer that counts, as the book shows it. */
  readonly shown: (book: Book) => unknown;
  readonly is: readonly [unknown, unknown];
}
const question = <K extends Kind>(of: Question<K>): Question => of as unknown as Question;

const declared = (expanded: string): Body<'instrument-declared'> => ({
  instrument: 'mic',
  name: 'Micrometer',
  type: 'micrometer',
  uncertainty: { expanded, coverage: 2, common_share: 0.5 },
  trust: 'stated',
});
const amended = (name: string): Body<'characteristic-amended'> => ({
  characteristic: 'shaft.size',
  change: { name },
  why: name,
});

/** Every kind of entry that gives the one answer to a question. */
const QUESTIONS: readonly Question[] = [
  question({
    kind: 'part-fitted',
    answers: [
      { position: 'here', part: 'p0' },
      { position: 'here', part: 'p1' },
    ],
    shown: (book) => book.positions.get('here')?.now?.part,
    is: ['p0', 'p1'],
  }),
  question({
    kind: 'part-fitted',
    answers: [
      { position: 'here', part: 'p0' },
      { position: 'there', part: 'p0' },
    ],
    shown: (book) => [...book.positions.values()].find(({ now }) => now?.part === 'p0')?.id,
    is: ['here', 'there'],
  }),
  question({
    kind: 'part-reworked',
    answers: [
      { part: 'p0', what: 'ground .010 under', condition: 'machined' },
      { part: 'p0', what: 'ground .020 under', condition: 'machined' },
    ],
    shown: (book) =>
      book.parts.get('p0')!.states.length > 1 ? book.parts.get('p0')!.current.what : undefined,
    is: ['ground .010 under', 'ground .020 under'],
  }),
  question({
    kind: 'disposition',
    answers: [
      { part: 'p0', decision: 'reuse', why: 'good' },
      { part: 'p0', decision: 'replace', why: 'bad' },
    ],
    shown: (book) => book.dispositions.get('p0')?.body.decision,
    is: ['reuse', 'replace'],
  }),
  question({
    kind: 'spec-adopted',
    answers: [
      { sheet: TINY.hash, title: 't' },
      { sheet: OTHER.hash, title: 'o' },
    ],
    shown: (book) => book.sheet?.title,
    is: ['Tiny engine', 'Another'],
  }),
  question({
    kind: 'characteristic-amended',
    answers: [amended('first name'), amended('second name')],
    shown: (book) => {
      const name = book.characteristics.get('shaft.size')?.name;
      return name === 'shaft.size' ? undefined : name;
    },
    is: ['first name', 'second name'],
  }),
  question({
    kind: 'instrument-declared',
    answers: [declared('0.0002 in'), declared('0.0005 in')],
    shown: (book) => book.instruments.get('mic')?.body.uncertainty.expanded,
    is: ['0.0002 in', '0.0005 in'],
  }),
];

/** Two desks that know of the same beginning and not of each other. */
function twoDesks(kind: Kind): [Desk, Desk] {
  const desk = new Desk('a');
  desk.write('job-opened', { title: 'A job' });
  if (kind === 'characteristic-amended') desk.write('spec-adopted', { sheet: TINY.hash, title: 't' });
  for (const part of ['p0', 'p1']) desk.write('part-entered', { part, name: part, condition: 'used' });
  return [desk, desk.beside('b')];
}
const folded = (desk: Desk) => foldedBook(desk.entries, SHEETS, readSheet);

describe.each(QUESTIONS)('$kind, whose answers are $is', ({ kind, answers, shown, is }) => {
  /** Whether the earlier answer says nothing of the later one's question: what was current then may show through. */
  const reworked = kind === 'part-reworked';

  it('goes by the later of two answers when its writer knew the earlier', () => {
    const [desk] = twoDesks(kind);
    desk.write(kind, answers[0]);
    desk.write(kind, answers[1]);
    expect(folded(desk).conflicts).toEqual([]);
    expect(shown(folded(desk))).toBe(is[1]);
  });

  it('counts neither of two that did not know of each other and differ, and shows the conflict', () => {
    const [a, b] = twoDesks(kind);
    const entries = [a.write(kind, answers[0]), b.write(kind, answers[1])];
    const book = folded(a.sees(b));
    expect(book.conflicts).toHaveLength(1);
    expect(new Set(book.conflicts[0]!.entries)).toEqual(new Set(entries.map(({ id }) => id)));
    expect(shown(book)).toBe(reworked ? 'as it came' : undefined);
  });

  it('counts the one that is left when the other is struck, and neither again when that strike is struck', () => {
    const [a, b] = twoDesks(kind);
    const first = a.write(kind, answers[0]);
    b.write(kind, answers[1]);
    a.sees(b);
    const strike = a.strike(first);
    expect(folded(a).conflicts).toEqual([]);
    expect(shown(folded(a))).toBe(is[1]);
    a.strike(strike);
    expect(folded(a).conflicts).toHaveLength(1);
  });

  it('counts what somebody who saw both decides', () => {
    const [a, b] = twoDesks(kind);
    a.write(kind, answers[0]);
    b.write(kind, answers[1]);
    a.sees(b).write(kind, answers[0]);
    expect(folded(a).conflicts).toEqual([]);
    expect(shown(folded(a))).toBe(is[0]);
  });

  it('has no conflict when two who did not know of each other say the same', () => {
    const [a, b] = twoDesks(kind);
    a.write(kind, answers[1]);
    b.write(kind, answers[1]);
    expect(folded(a.sees(b)).conflicts).toEqual([]);
    expect(shown(folded(a))).toBe(is[1]);
  });

  it('lets what both had seen stand while they differ', () => {
    const [a] = twoDesks(kind);
    a.write(kind, answers[0]);
    const b = a.beside('b');
    const c = a.beside('c');
    b.write(kind, answers[0]);
    c.write(kind, answers[1]);
    const book = folded(a.sees(b, c));
    expect(book.conflicts.length).toBeGreaterThan(0);
    expect(shown(book)).toBe(is[0]);
  });

  it('lets neither of two that differed come back when those who saw both differ again', () => {
    const [a, b] = twoDesks(kind);
    a.write(kind, answers[0]);
    b.write(kind, answers[1]);
    a.sees(b);
    const c = a.beside('c');
    a.write(kind, answers[0]);
    c.write(kind, answers[1]);
    const book = folded(a.sees(c));
    expect(book.conflicts).toHaveLength(1);
    expect(shown(book)).toBe(reworked ? 'as it came' : undefined);
  });
});

describe('two dispositions', () => {
  it('that agree do not differ by their reasons', () => {
    const [a, b] = twoDesks('disposition');
    a.write('disposition', { part: 'p0', decision: 'replace', why: 'worn' });
    b.write('disposition', { part: 'p0', decision: 'replace', why: 'cracked' });
    expect(folded(a.sees(b)).conflicts).toEqual([]);
  });

  it('of different parts have nothing to do with each other', () => {
    const [a, b] = twoDesks('disposition');
    a.write('disposition', { part: 'p0', decision: 'replace', why: 'worn' });
    b.write('disposition', { part: 'p1', decision: 'reuse', why: 'good' });
    expect(folded(a.sees(b)).conflicts).toEqual([]);
    expect(folded(a).dispositions.size).toBe(2);
  });
});
