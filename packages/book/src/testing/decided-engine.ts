import { Bench } from './bench.ts';
import { inches, lessOf } from './tiny-sheet.ts';

const limits = (set: 'new' | 'wear', lower: string | undefined, upper: string | undefined) => ({
  [set]: { ...(lower && { lower }), ...(upper && { upper }) },
});
const UNDER = [{ name: '.010 under', shift: '-0.010 in', obtainable: true }];
const OVER = [{ name: '.030 over', shift: '0.030 in', obtainable: true }];

/** An invented engine of two cylinders with what decisions, baskets and slips turn on. */
export function decidedEngine(): Bench {
  const bench = new Bench({
    axes: { cylinder: ['1', '2'], main: ['1', '2'], valve: ['1', '2'] },
    positions: [
      { id: 'block', name: 'Block' },
      { id: 'crank', name: 'Crankshaft' },
      { id: 'shells-{main}', name: 'Main shells', places: ['main'] },
      { id: 'piston-{cylinder}', name: 'Piston', places: ['cylinder'] },
      { id: 'spring-{valve}', name: 'Valve spring', places: ['valve'] },
    ],
    characteristics: [
      inches('bore', {
        position: 'block',
        places: ['cylinder'],
        limits: { ...limits('new', '3.0000 in', '3.0010 in'), ...limits('wear', '3.0000 in', '3.0060 in') },
        sizes: OVER,
      }),
      inches('piston', { position: 'piston-{cylinder}', places: ['cylinder'], sizes: OVER }),
      inches('skirt', {
        position: 'piston-{cylinder}',
        mates: ['block'],
        places: ['cylinder'],
        relation: lessOf('bore', 'piston'),
        limits: { new: { lower: '0.0015 in', upper: '0.0025 in', target: '0.0020 in' } },
      }),
      inches('journal', {
        position: 'crank',
        places: ['main'],
        limits: { ...limits('new', '2.0000 in', '2.0010 in'), ...limits('wear', '1.9990 in', '2.0010 in') },
        sizes: UNDER,
      }),
      inches('shell-bore', { position: 'shells-{main}', places: ['main'] }),
      inches('clearance', {
        position: 'crank',
        mates: ['shells-{main}'],
        places: ['main'],
        relation: lessOf('shell-bore', 'journal'),
        limits: limits('wear', '0.0010 in', '0.0040 in'),
      }),
      {
        id: 'load',
        name: 'Spring load',
        kind: 'force',
        unit: 'lbf',
        position: 'spring-{valve}',
        places: ['valve'],
        source: { document: 'made', trust: 'assumed' },
        limits: { new: { lower: '50 lbf', upper: '58 lbf' } },
      },
    ],
    covers: [
      { id: 'head', name: 'Head', order: 2, reopen_hours: 6, hides: { characteristics: ['load', 'bore'] } },
      { id: 'car', name: 'Engine in', order: 3, reopen_hours: 10, hides: { characteristics: ['bore'] } },
    ],
  });
  bench.part('block', 'block');
  bench.part('crank', 'crank');
  for (const n of ['1', '2']) {
    bench.part(`shells-old-${n}`, `shells-${n}`);
    bench.part(`piston-old-${n}`, `piston-${n}`);
    bench.part(`spring-${n}`, `spring-${n}`);
  }
  return bench;
}
