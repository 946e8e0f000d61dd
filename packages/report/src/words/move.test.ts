import type { Assessed } from '@fettle/book';
import { expect, it } from 'vitest';
import { linnetSheet } from '../testing/linnet-job.ts';
import { moveWords } from './move.ts';

const named = (wanted: string) => linnetSheet().characteristics.find(({ id }) => id === wanted)!;
const journal = named('crank.main-journal');
const clearance = { characteristic: named('crank.main-clearance') } as Assessed;

it('says what to read with the finer instrument, where that is another thing than the one judged', () => {
  const dial = { move: 'use-instrument', instrument: 'dial', name: 'Dial bore gauge' } as const;
  expect(moveWords(clearance, { ...dial, characteristic: journal })).toBe(
    'Read Main journal with Dial bore gauge: that would decide, if it reads the same.',
  );
  expect(moveWords(clearance, { ...dial, characteristic: clearance.characteristic })).toBe(
    'Dial bore gauge would decide, if it reads the same.',
  );
});

it('says where most of the doubt comes from, when nothing owned is fine enough', () => {
  const needed = 0.000127; // 0.005 in of standard uncertainty, 0.010 in at about 95 %
  expect(moveWords(clearance, { move: 'finer-than-owned', needed })).toBe(
    'Nothing owned is fine enough, if it reads the same: it has to be known to ±0.01 in at about 95 %. Borrow, have it measured, or decide without.',
  );
  const mostly = { instrument: 'tele', name: 'Telescoping gauge', share: 0.815, of: [journal] };
  expect(moveWords(clearance, { move: 'finer-than-owned', needed, mostly })).toContain(
    ' 82 % of the doubt comes from Telescoping gauge, with which Main journal was read: read that finer first.',
  );
});
