import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { plausibleBand } from './plausible.ts';

const THOU = 25.4e-6;
/** The journal of the demo: new 2.4990–2.5000, worn out below 2.4980. */
const JOURNAL = {
  positions: [{ id: 'crank', name: 'Crank' }],
  characteristics: [
    inches('journal', {
      position: 'crank',
      limits: {
        new: { lower: '2.4990 in', upper: '2.5000 in' },
        wear: { lower: '2.4980 in', upper: '2.5000 in' },
      },
      sizes: [{ name: '.010 under', shift: '-0.010 in', obtainable: true }],
    }),
    inches('clearance', {
      limits: { new: { lower: '0.0015 in', upper: '0.0030 in' }, wear: { upper: '0.0040 in' } },
    }),
    inches('taper', { limits: { wear: { upper: '0.0005 in' } } }),
  ],
};
function bench(size?: string): Bench {
  const made = new Bench(JOURNAL);
  made.part('crank', 'crank', size === undefined ? 'used' : 'machined', size);
  return made;
}
const band = (id: string, size?: string) => {
  const found = plausibleBand(bench().book().characteristics.get(id)!, size);
  return found && [found.from / THOU, found.to / THOU].map((x) => Math.round(x * 1e6) / 1e6);
};
/** The question a reading with the micrometer (u = .0001 in) raises. */
const asked = (text: string, id = 'journal', size?: string) => {
  const said = bench(size).said(id, text, { instrument: 'mic' });
  return said.ok ? undefined : said.issues[0];
};

describe('the plausible band', () => {
  it('goes from the limits for new parts to the wear limit and as much wear again', () => {
    expect(band('journal')).toEqual([2497, 2500]);
    expect(band('clearance')).toEqual([1.5, 5]);
  });

  it('moves with the size of the part', () => {
    expect(band('journal', '.010 under')).toEqual([2487, 2490]);
    expect(asked('2.4896 in', 'journal', '.010 under')).toBeUndefined();
    // .0060 above the band of a ground journal; 2.4896 is one digit away.
    expect(asked('2.4996 in', 'journal', '.010 under')?.message).toMatch(/2\.4896/);
  });

  it('is not there without both limit sets; then only what is more than five times off is asked about', () => {
    expect(band('taper')).toBeUndefined();
    expect(asked('0.0024 in', 'taper')).toBeUndefined();
    expect(asked('0.5 in', 'taper')?.message).toMatch(/Was it 0\.5 thou or/);
  });
});

describe('the question a reading raises', () => {
  it('is none inside the band, its ends included', () => {
    for (const text of ['2.4970 in', '2.4985 in', '2.5000 in']) expect(asked(text)).toBeUndefined();
  });

  it('asks about 2.4585 and suggests 2.4985, one digit away', () => {
    expect(asked('2.4585 in')).toMatchObject({ code: 'reading/implausible', got: '2.4585 in' });
    expect(asked('2.4585 in')?.message).toMatch(/Was it 2\.4985 in\?/);
  });

  it('asks beyond ten standard uncertainties, and not before, where no slip explains it', () => {
    // The band ends at .0050: .0059 lies nine times .0001 beyond it, .0066 sixteen times.
    expect(asked('0.0059 in', 'clearance')).toBeUndefined();
    expect(asked('0.0066 in', 'clearance')).toMatchObject({ code: 'reading/implausible' });
    expect(asked('0.0066 in', 'clearance')?.message).not.toMatch(/Was it/);
  });

  it('asks however near when swapping two neighbouring digits would bring it inside', () => {
    expect(asked('0.0052 in', 'clearance')?.message).toMatch(/Was it 0\.0025 in\?/);
    expect(asked('5.2 thou', 'clearance')?.message).toMatch(/Was it 2\.5 thou\?/);
  });

  it('asks however near when another digit before the last two would bring it inside', () => {
    // 1.2 uncertainties above the band.
    expect(asked('0.00512 in', 'clearance')?.message).toMatch(/0\.00212/);
  });

  it('does not take the last two digits for a slip: they are what is being measured', () => {
    expect(asked('2.4966 in')).toBeUndefined();
    expect(asked('0.0055 in', 'clearance')).toBeUndefined();
  });

  it('asks about a used journal larger than new, by more than three of its uncertainties, and not about a new one', () => {
    expect(asked('2.5002 in')).toBeUndefined();
    expect(asked('2.5004 in')).toMatchObject({ code: 'reading/negative-wear' });
    expect(asked('2.5004 in')?.message).toMatch(/better than new \(at most 2\.5 in\).*negative/);
    expect(asked('2.4904 in', 'journal', '.010 under')).toBeUndefined();
  });

  it('finds the unit that was meant: .0012 in of clearance left standing in a field of millimetres', () => {
    const metric = new Bench({
      characteristics: [
        inches('rod', { unit: 'mm', limits: { new: { lower: '0.028 mm', upper: '0.060 mm' } } }),
      ],
    });
    const said = metric.said('rod', '0.0012 mm', { instrument: 'mic' });
    // By hand: .0012 in is 30.5 µm.
    expect(said.ok ? '' : said.issues[0]!.message).toMatch(/Was it 0\.0012 in/);
    expect(metric.said('rod', '0.0012 in', { instrument: 'mic' }).ok).toBe(true);
  });

  it('asks about a micrometer read in the other system, and names it', () => {
    // 2.4985 in of journal, said in millimetres, and 63.462 mm said in inches.
    expect(asked('2.4985 mm')?.message).toMatch(/Was it 2\.4985 in\?/);
    expect(asked('63.462 in')?.message).toMatch(/Was it 63\.462 mm\?/);
  });

  it('raises no question anywhere between new and worn out, on any used part', () => {
    fc.assert(
      fc.property(fc.integer({ min: 24_970, max: 25_000 }), (size) => {
        expect(asked(`${(size / 10_000).toFixed(4)} in`)).toBeUndefined();
      }),
      { numRuns: 40 },
    );
  });

  it('is about a unit that has slipped, too', () => {
    expect(asked('2.4985 mm')).toMatchObject({ code: 'reading/implausible' });
  });
});

describe('a reading that was asked about', () => {
  it('is kept when confirmed, with the question and what was first said', () => {
    const said = bench().said('journal', '2.4585 in', { instrument: 'mic', confirmed: true });
    expect(said).toMatchObject({
      ok: true,
      value: { value: '2.4585 in', asked: { code: 'reading/implausible', first_said: '2.4585 in' } },
    });
  });

  it('is kept as corrected, with the question what was first said raised', () => {
    const said = bench().said('journal', '2.4985 in', { instrument: 'mic', firstSaid: '2.4585 in' });
    expect(said).toMatchObject({
      ok: true,
      value: { value: '2.4985 in', asked: { code: 'reading/implausible', first_said: '2.4585 in' } },
    });
    expect(said.ok && said.value.asked?.question).toMatch(/2\.4985/);
  });

  it('is asked about again when the correction is as far out', () => {
    expect(bench().said('journal', '2.4685 in', { instrument: 'mic', firstSaid: '2.4585 in' }).ok).toBe(
      false,
    );
  });

  it('carries no question when none was asked', () => {
    const said = bench().said('journal', '2.4985 in', { instrument: 'mic' });
    expect(said.ok && said.value.asked).toBeUndefined();
  });
});
