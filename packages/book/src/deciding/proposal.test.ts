import { normalCdf } from '@fettle/core';
import { expect, it } from 'vitest';
import { decidedEngine } from '../testing/decided-engine.ts';
import { evidenceWords, proposedWords, reasonWords, reuseWords } from '../words/deciding.ts';
import { proposalsOf } from './proposal.ts';

type Engine = ReturnType<typeof decidedEngine>;

const proposal = (bench: Engine, part: string, taken: readonly string[] = []) => {
  const found = proposalsOf(bench.book(), bench.assessed().judgements, taken).find(
    (one) => one.part.id === part,
  );
  if (!found) throw new Error(`nothing is proposed for ${part}`);
  return found;
};

const grind = (bench: Engine, more: object = {}): void => {
  bench.desk.write('repair-offered', {
    offer: 'grind',
    name: 'Crank grind',
    price: 300,
    restores: [{ characteristic: 'journal', judged_by: 'new', size: '.010 under' }],
    repairs: [],
    needs: [],
    excludes: [],
    trust: 'quoted',
    ...more,
  });
};

it('machines what is out to the size on offer, and names the readings it rests on', () => {
  const bench = decidedEngine();
  bench.read('journal', '2.0005 in', { at: '1', instrument: 'mic' });
  const worn = bench.read('journal', '1.9980 in', { at: '2', instrument: 'mic' });
  expect(proposal(bench, 'crank')).toMatchObject({ because: 'no-way' });
  expect(proposal(bench, 'crank').decision).toBeUndefined();
  grind(bench);
  const found = proposal(bench, 'crank');
  expect(found).toMatchObject({ decision: 'machine', size: '.010 under', because: 'out', price: 300 });
  expect(found.entries).toEqual([worn.id]);
  expect(proposedWords(found)).toBe('machine it, .010 under');
  expect(evidenceWords(bench.book(), found)).toMatch(/^As proposed: journal 2 is out\. By Crank grind\./);
});

it('replaces by a supply what no repair brings back, and uses again what is in', () => {
  const bench = decidedEngine();
  bench.read('load', '44 lbf', { at: '1', instrument: 'tester' });
  bench.read('load', '54 lbf', { at: '2', instrument: 'tester' });
  bench.desk.write('supply-offered', {
    supply: 'spring-new',
    name: 'Valve spring',
    covers: [{ need: 'spring', count: 1 }],
    price: 9,
    trust: 'quoted',
  });
  expect(proposal(bench, 'spring-1')).toMatchObject({ decision: 'replace', because: 'out', price: 9 });
  expect(proposal(bench, 'spring-2')).toMatchObject({ decision: 'reuse', because: 'in' });
  expect(proposal(bench, 'piston-old-1')).toMatchObject({ because: 'not-read' });
});

it('replaces what runs with a part that goes to another size, whatever it measures', () => {
  const bench = decidedEngine();
  bench.read('journal', '1.9980 in', { at: '1', instrument: 'mic' });
  bench.read('journal', '1.9980 in', { at: '2', instrument: 'mic' });
  bench.read('shell-bore', '2.0020 in', { at: '1', instrument: 'dbg' });
  grind(bench);
  const shells = proposal(bench, 'shells-old-1');
  expect(shells).toMatchObject({ decision: 'replace', size: '.010 under', because: 'partner' });
  expect(shells.price).toBeUndefined();
  expect(reasonWords(shells)).toContain('Nothing on record brings it in .010 under.');
  grind(bench, { covers: [{ need: 'shells', count: 2, size: '.010 under' }] });
  expect(proposal(bench, 'shells-old-1').chosen.map(({ id }) => id)).toEqual(['grind']);
});

it('leaves a new part alone that came for the new size', () => {
  const bench = decidedEngine();
  bench.read('journal', '1.9980 in', { at: '1', instrument: 'mic' });
  bench.read('journal', '1.9980 in', { at: '2', instrument: 'mic' });
  grind(bench);
  bench.part('shells-new-1', 'shells-1', 'new');
  expect(proposal(bench, 'shells-new-1').because).not.toBe('partner');
  expect(proposal(bench, 'shells-old-2').because).toBe('partner');
});

it('weighs using again against replacing by hand: p (h r + c) against c', () => {
  const bench = decidedEngine();
  // The tester reads to 3 % of 50.5 at two deviations: u = 0.7575, and 0.5 above the limit is 0.66 of it.
  bench.read('load', '50.5 lbf', { at: '1', instrument: 'tester' });
  bench.desk.write('supply-offered', {
    supply: 'spring-new',
    name: 'Valve spring',
    covers: [{ need: 'spring', count: 1 }],
    price: 9,
    trust: 'quoted',
  });
  const p = normalCdf(-0.5 / (0.015 * 50.5));
  const before = proposal(bench, 'spring-1');
  expect(before).toMatchObject({ because: 'cannot-tell' });
  expect(before.cost?.chanceOut).toBeCloseTo(p, 6);
  // Both cost the same where p (6 r + 9) = 9.
  expect(before.cost?.evenRate).toBeCloseTo((9 / p - 9) / 6, 6);
  bench.desk.write('terms-given', { party: 'owner', hour: 18 });
  const after = proposal(bench, 'spring-1');
  expect(after).toMatchObject({ decision: 'replace', because: 'expected-cost' });
  expect(after.cost?.reuse).toBeCloseTo(p * (6 * 18 + 9), 6);
  expect(reuseWords('Spring 1', after.cost!, after)[0]).toBe(
    'Reusing Spring 1 costs 30 in expectation if whatever is out has to be opened again: 25 % × (6 h × 18 + 9). Replacing it now costs 9.',
  );
  bench.desk.write('terms-given', { party: 'owner', hour: 2 });
  expect(proposal(bench, 'spring-1')).toMatchObject({ decision: 'reuse', because: 'expected-cost' });
});

it('adds up the hours of every cover that would hide it', () => {
  const bench = decidedEngine();
  bench.read('bore', '3.0059 in', { at: '1', instrument: 'tele' });
  bench.desk.write('repair-offered', {
    offer: 'rebore',
    name: 'Rebore',
    price: 400,
    restores: [{ characteristic: 'bore', judged_by: 'new', size: '.030 over' }],
    repairs: [],
    needs: [],
    excludes: [],
    trust: 'assumed',
  });
  expect(proposal(bench, 'block').cost?.hours).toBe(16);
  // Taken by the plan, it is proposed as that.
  expect(proposal(bench, 'block', ['rebore'])).toMatchObject({
    decision: 'machine',
    size: '.030 over',
    because: 'plan',
  });
});

it('keeps what was decided beside what is proposed, and says where they differ', () => {
  const bench = decidedEngine();
  bench.read('journal', '1.9980 in', { at: '1', instrument: 'mic' });
  bench.read('journal', '1.9980 in', { at: '2', instrument: 'mic' });
  grind(bench);
  bench.desk.write('disposition', { part: 'crank', decision: 'replace', why: 'another is to be had' });
  expect(proposal(bench, 'crank')).toMatchObject({ agrees: false, decision: 'machine' });
  bench.desk.write('disposition', { part: 'crank', decision: 'machine', size: '.010 under', why: 'as said' });
  expect(proposal(bench, 'crank')).toMatchObject({ agrees: true });
});
