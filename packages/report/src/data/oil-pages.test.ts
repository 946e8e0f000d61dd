import { asFittedNow, assessment, type Book } from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { expect, it } from 'vitest';
import { begun, folded, type Writer } from '../testing/linnet-job.ts';
import { predictionOf } from './prediction.ts';
import { pressurePages } from './pressure.ts';

/** A pump worn past its limits at faces and tips, all else not measured: two offers cure it, a third has no part in it. */
function wornPump(): Writer {
  const desk = begun({ title: 'A worn pump' });
  desk.instrument('leaves', 'Feeler leaves', 'feeler leaves', '0.0005 in');
  desk.instrument('gauge', 'Oil gauge', 'oil pressure gauge', '3 psi');
  for (const part of ['pump-body', 'pump-gears', 'pump-cover']) {
    desk.write('part-entered', { part, name: part, condition: 'used' });
    desk.write('part-fitted', { position: part, part });
  }
  const stateOf = (part: string) =>
    desk.entries.find(
      ({ kind, body }) => kind === 'part-entered' && (body as { part: string }).part === part,
    )!;
  for (const [characteristic, value, place] of [
    ...['1', '2', '3', '4', '5', '6', '7', '8'].map(
      (point) => ['pump.end-clearance', '0.0095 in', { point }] as const,
    ),
    ['pump.radial-clearance', '0.0070 in', undefined],
  ] as const)
    desk.write('reading', {
      characteristic,
      state: stateOf('pump-gears').id,
      mates: [stateOf('pump-body').id],
      ...(place && { place }),
      instrument: 'leaves',
      value,
    });
  return desk;
}

function offered(desk: Writer): Writer {
  const restores = ['pump.end-clearance', 'pump.radial-clearance'].map((characteristic) => ({
    characteristic,
    judged_by: 'new' as const,
  }));
  const priced = (offer: string, name: string, price: number, cured: typeof restores) =>
    desk.write('repair-offered', {
      offer,
      name,
      price,
      restores: cured,
      repairs: [],
      needs: [],
      excludes: [],
      trust: 'quoted',
    });
  priced('gears', 'Gears and cover', 118, restores);
  priced('body', 'A sound used pump', 265, restores);
  priced('skim', 'Head skim', 55, [{ characteristic: 'head.flatness', judged_by: 'new' }]);
  return desk;
}

function gauged(desk: Writer, pressure: string, when: 'as-found' | 'start-up', temperature?: string): Writer {
  desk.write('gauge-reading', {
    pressure,
    speed: '600 rpm',
    ...(temperature !== undefined && { temperature }),
    instrument: 'gauge',
    when,
  });
  return desk;
}

function pagesFor(book: Book) {
  const assessed = assessment(book, asFittedNow(book), CATALOGUE);
  const pages = pressurePages(
    book,
    assessed,
    predictionOf(book, assessed.reckoning),
    Date.parse('2026-03-01T12:00:00Z'),
  );
  if (pages.why_not !== '') throw new Error(pages.why_not);
  return pages as Extract<typeof pages, { stair: unknown }>;
}

const figure = (words: string): number => Number(words.split(' ')[0]!.replace('−', '-'));

it('prints treads that add up to the loss, and beside each what its repair brings alone', () => {
  const { stair, repairs } = pagesFor(folded(wornPump().entries));
  if (!stair) throw new Error('no stair');
  const lost = Number(stair.as_new) - Number(stair.now);
  expect(lost).toBeGreaterThan(5);
  const sum = stair.treads.reduce((all, { share }) => all + figure(share), 0);
  expect(sum).toBeCloseTo(-lost, 6);
  expect(figure(stair.lost)).toBeCloseTo(-lost, 6);
  const carrying = stair.treads.filter(({ share }) => figure(share) !== 0).map(({ repair }) => repair);
  expect([...carrying].sort()).toEqual([
    'Pump end clearance, gears to worn cover',
    'Pump radial clearance, gear to body',
  ]);
  // What was not measured stands as new: nothing to lose, nothing to gain, and it says so.
  const rods = stair.treads.find(({ repair }) => repair.startsWith('Rod'));
  expect(rods).toMatchObject({ share: '0.0', gain: '0.0', not_measured: true });
  // The same figures as in the list of single repairs, which solves the network by itself.
  for (const { repair, gain, alone } of stair.treads) {
    const single = repairs.find(({ name }) => name === repair);
    expect([single?.gain, single?.words.split(' ')[0]]).toEqual([gain, alone]);
  }
  expect(stair.svg).toContain('the sheet wants at least');
});

it('plans with the cheapest of two cures and says what the other and the needless one would cost', () => {
  const { plan } = pagesFor(folded(offered(wornPump()).entries));
  expect(plan.title).toBe('The cheapest plan: 118');
  expect(plan.chosen.map(({ name, price, ready }) => [name, price, ready])).toEqual([
    ['Gears and cover', '118', 'at once'],
  ]);
  expect(plan.chosen[0]?.why).toContain('Settles Pump end clearance');
  expect(plan.said.join(' ')).toContain('does without something of this one: 265');
  const why = new Map(plan.left_out.map((one) => [one.name, one.why]));
  // 265 − 118 and 55.
  expect(why.get('A sound used pump')).toContain('costs 265, 147 more');
  expect(why.get('Head skim')).toContain('costs 173, 55 more');
  expect(plan.pressures.map(({ wanted }) => wanted)).toEqual(['min 15 psi', '40 to 48 psi']);
});

it('says in one line that nothing was offered', () => {
  const { plan } = pagesFor(folded(wornPump().entries));
  expect(plan.why_not).toMatch(/^No repair was offered/);
  expect([plan.chosen, plan.left_out, plan.said]).toEqual([[], [], []]);
});

it('shows the calibrated pressures beside the others, in a narrower band, or why there are none', () => {
  const none = pagesFor(folded(wornPump().entries)).calibration;
  expect(none).toHaveLength(1);
  expect(none[0]).toMatchObject({ constants: [], pressures: [] });
  expect(none[0]?.words).toContain('No gauge readings');
  const [found] = pagesFor(folded(gauged(wornPump(), '10 psi', 'as-found', '93 degC').entries)).calibration;
  expect(found?.words).toMatch(/^Calibrated by 1 gauge reading,/);
  expect(found?.constants.length).toBeGreaterThan(2);
  const idle = found?.pressures.find(({ crank, sump }) => crank === '600 rpm' && sump === '93 °C');
  const half = (words = ''): number => Number(/±([\d.]+)/.exec(words)?.[1]);
  expect(half(idle?.calibrated)).toBeLessThan(half(idle?.assumed));
});

it('judges every gauge reading against what was to be expected, with the stop rules first', () => {
  const desk = gauged(wornPump(), '0 psi', 'start-up', '93 degC');
  const { start_up } = pagesFor(folded(gauged(desk, '38 psi', 'start-up').entries));
  expect(start_up.rules[0]).toContain('within 10 s of turning: STOP');
  expect(start_up.started).toBe(true);
  const [dry, coldless] = start_up.readings;
  expect(dry).toMatchObject({ answer: 'NO PRESSURE', stop: 'STOP', wanted: 'min 15 psi', verdict: 'out' });
  expect(dry?.expected).toMatch(/^\d+\.\d ±\d+\.\d psi$/);
  expect(coldless?.answer).toContain('not judged: How hot was the oil?');
  expect(start_up.expected.lines.every(({ cells }) => cells.every((cell) => cell.endsWith(' psi')))).toBe(
    true,
  );
});

it('says that a worn pump does not lift oil dry, and lifts it when it is packed', () => {
  const { priming } = pagesFor(folded(wornPump().entries));
  expect(priming.drives.map(({ by, dry_verdict }) => [by, dry_verdict])).toEqual([
    ['starter', 'DOES NOT LIFT IT'],
    ['drill', 'DOES NOT LIFT IT'],
  ]);
  expect(priming.drives.every(({ sealed_verdict }) => sealed_verdict === 'lifts it')).toBe(true);
  expect(priming.steps[0]).toContain('never with grease');
  expect(priming.cautions.length).toBeGreaterThan(0);
});

it('gives films at idle and at the fastest hot speed, with what stands in for figures nobody gave', () => {
  const { films } = pagesFor(folded(wornPump().entries));
  expect(films.tables.map(({ at }) => at.split(',')[0])).toEqual(['600 rpm', '3000 rpm']);
  const mains = films.tables[0]?.lines.filter(({ bearing }) => bearing.startsWith('main'));
  expect(mains).toHaveLength(3);
  for (const { bearing, least } of mains ?? []) {
    expect(bearing).toContain('(not measured)');
    expect(least).toMatch(/^\d+\.\d{3} ±\d+\.\d{3} thou \(\d+\.\d µm\)/);
  }
  expect(films.stand_ins.some((words) => words.startsWith('Stands in for'))).toBe(true);
  expect(films.cautions.length).toBeGreaterThan(0);
});

it('says which reading, measured better, would narrow the band at idle most', () => {
  const { narrowing } = pagesFor(folded(wornPump().entries));
  const [first, second] = narrowing!.readings;
  // The ends leak with the cube of eight readings' gap, the tips with that of one.
  expect(first).toMatchObject({ with: 'Feeler leaves', finest: 'no finer one owned' });
  expect(narrowing!.said[0]).toContain(first!.name);
  const band = (words: string): number => Number(/±([\d.]+) psi/.exec(words)![1]);
  expect(band(first!.without)).toBeLessThanOrEqual(band(second!.without));
  expect(band(first!.without)).toBeLessThan(band(narrowing!.pressure));
  // Nothing of the bearings was measured, and so has no band: that is said too.
  expect(narrowing!.said[1]).toMatch(/^Not measured, so without any band/);
});
