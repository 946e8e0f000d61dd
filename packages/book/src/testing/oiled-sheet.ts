import { CATALOGUE } from '@fettle/core';
import { Reckoning } from '../assess/reckoning.ts';
import { asFound } from '../assess/selection.ts';
import type { Book } from '../fold/book.ts';
import { Bench } from './bench.ts';
import { inches } from './tiny-sheet.ts';

const bearing = (id: string, from: string, at: Record<string, string>, more: Record<string, unknown>) => ({
  id,
  from: 'gallery',
  to: 'sump',
  radial_clearance: { from, at, factor: 0.5, nominal: '0.0020 in', repair: `${from} bearings` },
  film_rise: '12 K',
  ...more,
});

/** An invented engine's oil: pump, relief valve, two mains, two rods and a jet. Clearances total and diametral. */
export const oiledSheet = (): Record<string, unknown> => ({
  axes: { main: ['1', '2'], rod: ['1', '2'] },
  characteristics: [
    inches('end', { limits: { wear: { upper: '0.006 in' } } }),
    inches('tip', { limits: { wear: { upper: '0.0045 in' } } }),
    inches('main', { places: ['main'], limits: { wear: { upper: '0.004 in' } } }),
    inches('rod', { places: ['rod'], limits: { wear: { upper: '0.004 in' } } }),
  ],
  oil: {
    grades: {
      thin: { name: 'Thin', kv40: '93 mm2/s', kv100: '10.8 mm2/s' },
      thick: { name: 'Thick', kv40: '140 mm2/s', kv100: '14.4 mm2/s' },
    },
    fill: 'thin',
    density15: '885 kg/m3',
    hot: '93 degC',
    cold: '20 degC',
    speeds: ['600 rpm', '1000 rpm', '2000 rpm', '3000 rpm'],
    circuit: {
      gauge: 'gallery',
      elements: [
        {
          id: 'pump',
          law: 'gear-pump',
          from: 'sump',
          to: 'gallery',
          displacement: '0.25 in3',
          speed_ratio: 0.5,
          end_clearance: { from: 'end', nominal: '0.0025 in', repair: 'pump ends' },
          face_ratio: 2,
          face_split: 0,
          tip_clearance: { from: 'tip', nominal: '0.0025 in', repair: 'pump tips' },
          tip_land: '0.045 in',
          tips_in_series: 3,
          face_width: '0.75 in',
        },
        {
          id: 'relief',
          law: 'relief-valve',
          from: 'gallery',
          to: 'sump',
          plunger_diameter: '0.5 in',
          spring_rate: '10.75 lbf/in',
          preload: '8.84 lbf',
          port_width: '0.60 in',
          hole_diameter: '0.375 in',
          discharge_coefficient: 0.62,
        },
        ...['1', '2'].map((main) =>
          bearing(
            `main-${main}`,
            'main',
            { main },
            {
              law: 'groove-bearing',
              diameter: '2.5 in',
              land_length: '0.6 in',
              eccentricity_ratio: 0.6,
            },
          ),
        ),
        ...['1', '2'].map((rod) =>
          bearing(
            `rod-${rod}`,
            'rod',
            { rod },
            {
              law: 'hole-bearing',
              diameter: '2.1 in',
              length: '1.2 in',
              hole_diameter: '0.25 in',
              hole: 'rotating',
              eccentricity_ratio: 0.7,
            },
          ),
        ),
        {
          id: 'jet',
          law: 'orifice',
          from: 'gallery',
          to: 'sump',
          diameter: '0.05 in',
          discharge_coefficient: 0.62,
        },
      ],
    },
  },
});

const CLEARANCES: readonly (readonly [string, string, string])[] = [
  ['end', '', '0.0030 in'],
  ['tip', '', '0.0030 in'],
  ['main', '1', '0.0025 in'],
  ['main', '2', '0.0026 in'],
  ['rod', '1', '0.0022 in'],
  ['rod', '2', '0.0023 in'],
];

/** A bench with a gauge of U = 3 psi, half of it common, and if wanted every clearance read. */
export function oiledBench({ measured = false, sheet = oiledSheet() } = {}): Bench {
  const bench = new Bench(sheet);
  bench.declare('gauge', 'oil pressure gauge', { expanded: '3 psi', coverage: 2, common_share: 0.5 });
  if (measured)
    for (const [characteristic, at, size] of CLEARANCES)
      bench.read(characteristic, size, { at, instrument: 'dbg' });
  return bench;
}

export const reckoningOf = (book: Book): Reckoning => new Reckoning(book, asFound(book), CATALOGUE);
