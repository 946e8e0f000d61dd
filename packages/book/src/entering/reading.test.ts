import { describe, expect, it } from 'vitest';
import { readEntry } from '../ledger/read-entry.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { admittedReading, type ReadingSaid } from './reading.ts';

const SHEET = {
  axes: { end: ['front', 'rear'] },
  positions: [
    { id: 'crank', name: 'Crank' },
    { id: 'body', name: 'Body' },
  ],
  characteristics: [
    inches('journal', { position: 'crank', mates: ['body'], places: ['end'], with: 'micrometer' }),
    inches('radial', {
      measurand: 'per-side',
      ask_measurand: true,
      with: 'feeler leaves',
      read_as: { total: { how: 'gear held over to one side', factor: 0.5 } },
    }),
    { ...JSON.parse(JSON.stringify(inches('rail', { unit: undefined }))), kind: 'seen', wanted: 'flat' },
  ],
};
function bench(): Bench {
  const made = new Bench(SHEET);
  made.part('crank', 'crank');
  made.part('body', 'body');
  return made;
}
const codes = (said: ReturnType<Bench['said']>): string[] =>
  said.ok ? [] : said.issues.map(({ code }) => code);

describe('a reading said in full', () => {
  it('becomes the body of an entry, with state, mates and place, and without what goes without saying', () => {
    const made = bench();
    const said = made.said('journal', '2.4985 in', { at: 'rear' });
    const state = (part: string) => made.book().parts.get(part)!.current.id;
    expect(said).toEqual({
      ok: true,
      value: {
        characteristic: 'journal',
        state: state('crank'),
        mates: [state('body')],
        place: { end: 'rear' },
        // The one micrometer owned.
        instrument: 'mic',
        value: '2.4985 in',
      },
    });
    expect(readEntry(made.desk.write('reading', said.ok ? said.value : (undefined as never))).ok).toBe(true);
  });

  it('may name a part that is not fitted', () => {
    const made = bench();
    const spare = made.desk.write('part-entered', { part: 'spare', name: 'Spare', condition: 'new' });
    const said = made.said('journal', '2.4985 in', { part: 'spare' });
    expect(said.ok && said.value.state).toBe(spare.id);
  });
});

describe('a reading that lacks something is not guessed at', () => {
  it.each([
    ['an unknown characteristic', 'jurnal', '1 in', {}, 'characteristic/unknown'],
    ['what is only looked at', 'rail', '1 in', { instrument: 'mic' }, 'reading/is-seen'],
    ['a missing unit', 'journal', '2.4985', {}, 'unit/missing'],
    ['a unit of another kind', 'journal', '20 psi', {}, 'unit/wrong-kind'],
    ['an unknown part', 'journal', '1 in', { part: 'other' }, 'part/unknown'],
    ['an unknown instrument', 'journal', '1 in', { instrument: 'ruler' }, 'instrument/unknown'],
    [
      'an instrument for something else',
      'journal',
      '1 in',
      { instrument: 'thermo' },
      'reading/wrong-instrument',
    ],
    ['an unknown measurand', 'radial', '1 in', { measurand: 'diametral' }, 'reading/unknown-measurand'],
    ['a measurand with no safe guess', 'radial', '1 in', {}, 'reading/measurand-missing'],
  ])('%s', (_, characteristic, text, more, code) => {
    expect(codes(bench().said(characteristic, text, more))).toEqual([code]);
  });

  it('the tool asks which measurand, with how each is taken', () => {
    const said = bench().said('radial', { goes: '2 thou', stops: '6 thou' });
    expect(!said.ok && said.issues[0]).toMatchObject({ wanted: 'per-side, total' });
    expect(!said.ok && said.issues[0]!.message).toMatch(/gear held over to one side/);
  });

  it('an unknown place, whether the axis or its value', () => {
    const said = (place: Record<string, string>) =>
      admittedReading(bench().book(), {
        characteristic: 'journal',
        place,
        value: '1 in',
      } satisfies ReadingSaid);
    expect(codes(said({ end: 'middle' }))).toEqual(['place/unknown']);
    expect(codes(said({ corner: 'left' }))).toEqual(['place/unknown']);
    expect(() => bench().said('journal', '1 in', { at: 'middle' })).toThrow(/has no place/);
  });

  it('no part where one belongs', () => {
    const made = new Bench(SHEET);
    expect(codes(made.said('journal', '1 in'))).toEqual(['part/none-fitted']);
  });

  it('two instruments of the usual type, so that neither goes without saying', () => {
    const made = bench();
    made.declare('mic-2', 'micrometer', { expanded: '0.0001 in', coverage: 2, common_share: 0.5 });
    expect(codes(made.said('journal', '1 in'))).toEqual(['instrument/missing']);
  });

  it('leaves that contradict each other', () => {
    const leaves = { measurand: 'per-side', instrument: 'leaves' };
    expect(codes(bench().said('radial', { goes: '6 thou', stops: '2 thou' }, leaves))).toEqual([
      'feeler/contradiction',
    ]);
    expect(codes(bench().said('radial', { goes: '2 thou', stops: '2 thou' }, leaves))).toEqual([
      'feeler/contradiction',
    ]);
    expect(codes(bench().said('radial', { goes: '2 thou' }, leaves))).toEqual([]);
  });

  it('a temperature without a unit', () => {
    expect(codes(bench().said('journal', '1 in', { temperature: { part: '6' } }))).toEqual(['unit/missing']);
  });

  it('everything that is wrong comes back at once', () => {
    const said = bench().said('radial', '1', { instrument: 'ruler', measurand: 'x', part: 'other' });
    expect(codes(said)).toHaveLength(4);
    for (const issue of said.ok ? [] : said.issues) expect(issue.message.length).toBeGreaterThan(20);
  });
});

describe('leaves laid together', () => {
  const made = bench();
  const said = (goes: string, stops?: string) =>
    made.said(
      'radial',
      { goes, ...(stops !== undefined && { stops }) },
      { instrument: 'leaves', measurand: 'per-side' },
    );

  it('are one leaf as thick as all of them, and which they were is kept', () => {
    expect(said('.012 + .010 in', '.012 in + 12 thou')).toMatchObject({
      ok: true,
      value: {
        goes: '0.022 in',
        goes_stack: ['.012 in', '.010 in'],
        stops: '24 thou',
        stops_stack: ['.012 in', '12 thou'],
      },
    });
  });

  it('want a leaf on both sides of the sign, a unit, and no more of them than are worth it', () => {
    expect(codes(said('0.012 in +'))).toEqual(['feeler/stack']);
    expect(codes(said('0.012 + 0.010'))).toEqual(['unit/missing']);
    expect(codes(said('1 + 1 + 1 + 1 + 1 thou'))).toEqual(['feeler/stack']);
    expect(codes(said('0.012 + 0.012 in', '0.010 + 0.012 in'))).toEqual(['feeler/contradiction']);
  });
});
