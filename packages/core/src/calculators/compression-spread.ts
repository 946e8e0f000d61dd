import { type Answer, calculator } from '../catalogue/calculator.ts';
import { quantities } from '../catalogue/field.ts';
import { compressionSpread, USUAL_SPREADS } from '../metrology/compression-spread.ts';

const [strict, loose] = USUAL_SPREADS.fraction;

export const COMPRESSION_SPREAD = calculator({
  name: 'compression-spread',
  sentence: 'How far the cylinders of one engine read apart in a compression test.',
  formula: ['spread = p_max − p_min', 'spread_fraction = spread/p_max'],
  sources: ['navedtra-14264'],
  input: { readings: quantities('pressure', 'One per cylinder, gauge, throttle open, engine warm') },
  output: {
    spread: { kind: 'pressure', doc: 'Highest less lowest' },
    spread_fraction: { kind: 'ratio', doc: 'Of the highest' },
    highest: { kind: 'pressure', doc: 'p_max' },
    lowest: { kind: 'pressure', doc: 'p_min' },
    lowest_cylinder: { kind: 'ratio', doc: 'Counted from 1, in the order given' },
  },
  range: 'all cylinders cranked alike; a low battery or a closed throttle lowers all of them',
  example: { readings: ['92 psi', '95 psi', '78 psi', '90 psi'] },
  compute: ({ readings }): Answer => {
    if (readings.length < 2)
      return {
        issues: [
          {
            code: 'compression/too-few',
            at: 'readings',
            got: `${readings.length} readings`,
            wanted: 'two or more',
            message: 'One cylinder alone has no spread. Give the reading of every cylinder.',
          },
        ],
      };
    const { spread, fraction, highest, lowest, lowestAt } = compressionSpread(readings);
    return {
      results: { spread, spread_fraction: fraction, highest, lowest, lowest_cylinder: lowestAt + 1 },
      cautions:
        fraction > strict && fraction <= loose
          ? [
              {
                code: 'compression/between-limits',
                message:
                  'Between 10 and 15 % of the highest: manuals differ, and a limit in psi may say otherwise. Read wet and dry before deciding.',
              },
            ]
          : [],
    };
  },
});
