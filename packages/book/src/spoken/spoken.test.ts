import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { heard } from './heard.ts';
import { type SpokenIn, spoken } from './spoken.ts';

/** Journals and bores of an invented engine, as a sheet names them. */
const ENGINE = {
  axes: {
    rod: ['1', '2', '3', '4'],
    main: ['1', '2', '3'],
    end: ['front', 'rear'],
    turn: ['0', '90'],
    cylinder: ['1', '2'],
    height: ['top', 'bottom'],
  },
  positions: [{ id: 'crank', name: 'Crank' }],
  characteristics: [
    inches('crank.rod-journal', {
      name: 'Rod journal',
      places: ['rod', 'end', 'turn'],
      limits: {
        new: { lower: '2.1240 in', upper: '2.1250 in' },
        wear: { lower: '2.1230 in', upper: '2.1250 in' },
      },
    }),
    inches('shell.rod-bore', { name: 'Rod shell bore', places: ['rod'] }),
    inches('crank.main-journal', {
      name: 'Main journal',
      places: ['main', 'end', 'turn'],
      limits: {
        new: { lower: '2.4990 in', upper: '2.5000 in' },
        wear: { lower: '2.4980 in', upper: '2.5000 in' },
      },
    }),
    inches('bore.diameter', {
      name: 'Bore',
      places: ['cylinder', 'height'],
      limits: {
        new: { lower: '3.5000 in', upper: '3.5010 in' },
        wear: { lower: '3.5000 in', upper: '3.5080 in' },
      },
    }),
    inches('pump.radial-clearance', {
      name: 'Pump radial clearance',
      measurand: 'per-side',
      read_as: { total: { how: 'over both sides', factor: 0.5 } },
      limits: { new: { lower: '0.0015 in', upper: '0.0035 in' } },
    }),
  ],
};
const bench = () => new Bench(ENGINE);
const inInches: SpokenIn = { unit: () => 'in' };
const say = (text: string, within: SpokenIn = inInches) => spoken(bench().book(), text, within);
const back = (text: string, within?: SpokenIn) => {
  const said = say(text, within);
  return said.ok ? said.value.back : said.issues[0]!.code;
};

describe('leaves laid together', () => {
  const leaves = (text: string) => {
    const said = say(`pump radial clearance ${text}`);
    if (!said.ok) return said.issues[0]!.code;
    const [one] = said.value.is === 'readings' ? said.value.readings : [];
    return one && { goes: one.goes, stops: one.stops, ...(one.drags && { drags: true }) };
  };

  it('are one size, said before or behind what they do', () => {
    expect(leaves('goes ten and twelve thou together')).toEqual({ goes: '10 + 12 thou', stops: undefined });
    expect(leaves('ten and twelve thou together goes, twelve and thirteen thou together does not')).toEqual({
      goes: '10 + 12 thou',
      stops: '12 + 13 thou',
    });
    expect(leaves('.012 + .010 in goes, .012+.012 in does not go')).toEqual({
      goes: '.012 + .010 in',
      stops: '.012 + .012 in',
    });
    expect(leaves('4 thou drags')).toEqual({ goes: '4 thou', stops: undefined, drags: true });
  });

  it('are read back as together, and an "and" alone joins no readings', () => {
    expect(back('pump radial clearance goes ten and twelve thou together')).toBe(
      'Pump radial clearance: 10 + 12 thou together goes',
    );
    expect(heard('front 2.1228 and 2.1227').filter(({ is }) => is === 'number')).toHaveLength(2);
  });
});

describe('what is heard', () => {
  it('numbers spelt digit by digit are the same as written ones', () => {
    expect(heard('two front two point one two two eight')).toEqual([
      { is: 'whole', text: '2' },
      { is: 'word', text: 'front' },
      { is: 'number', text: '2.1228' },
    ]);
    expect(heard('point oh oh four')).toEqual([{ is: 'number', text: '0.004' }]);
  });

  it('a whole number is a reading only with its unit behind it', () => {
    expect(heard('4 thou goes, 5thou does not go')).toEqual([
      { is: 'number', text: '4', unit: 'thou' },
      { is: 'goes' },
      { is: 'number', text: '5', unit: 'thou' },
      { is: 'stops' },
    ]);
  });
});

describe('readings said aloud', () => {
  it('two numbers fill the two places that are left, and are read back with them', () => {
    expect(back('rod two front 2.1228, 2.1227')).toBe(
      'Rod journal, rod 2, front, 0°: 2.1228 in\nRod journal, rod 2, front, 90°: 2.1227 in',
    );
  });

  it('numbers tell the journal from the shell bore where the words would fit both', () => {
    expect(back('main three rear ninety 2.4976')).toBe('Main journal, main 3, rear, 90°: 2.4976 in');
    expect(back('rod shell bore 2 2.1266')).toBe('Rod shell bore, rod 2: 2.1266 in');
    expect(back('bore one top three point five zero five two')).toBe('Bore, cylinder 1, top: 3.5052 in');
  });

  it('leaves and ways of reading are understood', () => {
    const said = say('pump radial 4 thou goes 5 thou stops');
    expect(said).toMatchObject({ ok: true, value: { readings: [{ goes: '4 thou', stops: '5 thou' }] } });
    const total = say('pump radial clearance total 9 thou');
    expect(total).toMatchObject({ ok: true, value: { readings: [{ measurand: 'total', value: '9 thou' }] } });
  });

  it('a unit once said holds for the phrase; one never said and not set is asked for', () => {
    expect(back('rod two front 2.1228, 2.1227 inches', {})).toContain('2.1228 in');
    expect(back('rod two front 2.1228, 2.1227', {})).toBe('unit/missing');
  });

  it('what fits two things, no place, too few numbers or no words at all is asked about', () => {
    expect(back('journal 2 front 0 2.3')).toBe('spoken/ambiguous');
    expect(back('rod two front 2.1228')).toBe('spoken/places');
    expect(back('rod two front')).toBe('spoken/no-number');
    expect(back('gudgeon 2.1228')).toBe('spoken/not-understood');
    expect(back('rod two 2,1228')).toBe('spoken/decimal-comma');
  });

  it('what is on the bench is meant where only numbers are said', () => {
    expect(back('2 front 0 2.1228', { ...inInches, at: 'crank.rod-journal' })).toBe(
      'Rod journal, rod 2, front, 0°: 2.1228 in',
    );
  });
});

describe('corrections said after', () => {
  const made = () => {
    const one = bench();
    one.read('crank.rod-journal', '2.1228 in', { at: '2/front/0', instrument: 'mic' });
    const book = one.book();
    return { book, within: { ...inInches, last: book.readings.at(-1)! } };
  };

  it('strike the last reading and say it anew, with what was first said', () => {
    const { book, within } = made();
    const said = spoken(book, 'no, 2.1238', within);
    expect(said).toMatchObject({
      ok: true,
      value: {
        is: 'correction',
        strikes: within.last.entry.id,
        reading: { value: '2.1238 in', firstSaid: '2.1228 in', place: { rod: '2', end: 'front', turn: '0' } },
        back: 'Rod journal, rod 2, front, 0°: 2.1238 in, not 2.1228 in.',
      },
    });
  });

  it('may only strike it, and say so when there was none', () => {
    const { book, within } = made();
    expect(spoken(book, 'strike that', within)).toMatchObject({ ok: true, value: { is: 'strike' } });
    expect(back('strike that')).toBe('spoken/nothing-before');
  });
});
