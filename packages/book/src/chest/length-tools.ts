import {
  calliperLimit,
  DIAL_INDICATOR,
  gaugeBlockLimit,
  leafLimit,
  micrometerLimit,
  steelRuleLimit,
} from '@fettle/core';
import type { BudgetLine } from '../ledger/bodies.ts';
import { amountText } from './amount.ts';
import { asked, type InstrumentType } from './instrument-type.ts';
import { band, halfOf, limit, PRACTICE, STATED, step } from './lines.ts';

const um = (metres: number): string => amountText(metres, 'length', 'um');
const range = (inch: string, metric: string) => asked('range', 'measures up to', 'length', inch, metric);
const scaleStep = (inch: string, metric: string) =>
  asked('step', 'step of its scale', 'length', inch, metric);
const feel = (inch: string, metric: string) =>
  asked('feel', 'your own feel, ± at about 95 %', 'length', inch, metric);

const DIN_863 = 'DIN 863-1; ISO 3611 leaves the figure to the maker';
const DIN_878 = 'DIN 878, memory-likely; ISO 463 gives no figures';
const BLOCK = 'ISO 3650, grade 2, taken for the setting rod';

const leafLine = (thickness: number): BudgetLine =>
  limit('a leaf is not everywhere what it says', um(leafLimit(thickness)), 'IS 3179, derived from BS 957-2', {
    share: 'own',
  });

/** An outside micrometer's own lines: also what a telescoping gauge is read by when no micrometer is named. */
export function micrometerLines(
  up: number,
  stepSaid: string,
  feelSaid: string,
): readonly BudgetLine[] | string {
  const error = micrometerLimit(up);
  if (error === undefined)
    return 'DIN 863-1 is known here up to 300 mm (11.8 in): state U, or a shorter range.';
  const rod = up > 0.026 ? gaugeBlockLimit(up, 2) : undefined;
  return [
    limit('error of the screw and the anvils', um(error), DIN_863),
    ...(rod === undefined ? [] : [limit('setting rod', um(rod), BLOCK)]),
    step('step of the scale', stepSaid),
    band('feel of the thimble', feelSaid, PRACTICE),
  ];
}

/** Tools that measure a length. */
export const LENGTH_TOOLS: readonly InstrumentType[] = [
  {
    type: 'micrometer',
    reads: 'length',
    settings: [range('4 in', '100 mm'), scaleStep('0.0001 in', '0.002 mm'), feel('0.0001 in', '0.002 mm')],
    check: 'zero, its setting rod or a gauge block',
    lines: ({ si, said }) => micrometerLines(si('range'), said('step'), said('feel')),
  },
  {
    type: 'telescoping gauge',
    reads: 'length',
    settings: [
      range('4 in', '100 mm'),
      feel('0.0005 in', '0.012 mm'),
      asked('faces', 'how its ends bear, ±', 'length', '0.0002 in', '0.005 mm'),
    ],
    chained: 'the micrometer it is read by',
    check: 'a ring, or a bore that is known',
    lines: ({ said, chain }) => {
      const read = chain('each reading of the micrometer');
      return typeof read === 'string'
        ? read
        : [
            ...read,
            limit('its ends bear otherwise in a bore than between anvils', said('faces'), PRACTICE),
            band('finding the diameter and locking it', said('feel'), PRACTICE),
          ];
    },
  },
  {
    type: 'dial bore gauge',
    reads: 'length',
    settings: [
      range('4 in', '100 mm'),
      scaleStep('0.0005 in', '0.01 mm'),
      feel('0.0001 in', '0.003 mm'),
      asked('ring', 'setting ring good to ±; empty where it is set in a micrometer', 'length', ''),
    ],
    chained: 'the micrometer it is set in',
    check: 'what it was set in: the micrometer or the ring',
    lines: ({ said, chain }) => {
      const set =
        said('ring') === ''
          ? chain('setting it in the micrometer')
          : [limit('setting ring', said('ring'), 'stated on the ring')];
      if (typeof set === 'string') return set;
      return [
        // Set once: whatever setting it brought is in all its readings.
        ...set.map((line) => ({ ...line, share: 'common' as const })),
        limit('dial over the little it moves', um(DIAL_INDICATOR.local), DIN_878),
        step('step of the dial, read to half', `${halfOf(said('step'))}`),
        band('rocking it to the smallest', said('feel'), PRACTICE),
      ];
    },
  },
  {
    type: 'depth micrometer',
    reads: 'length',
    settings: [range('1 in', '25 mm'), scaleStep('0.001 in', '0.01 mm'), feel('0.0002 in', '0.005 mm')],
    check: 'zero on a flat plate, or a gauge block on it',
    lines: ({ si, said }) => {
      const error = micrometerLimit(si('range'));
      if (error === undefined) return 'A depth micrometer is known here up to 300 mm: state U.';
      return [
        limit(
          'error of the screw',
          um(error),
          'taken like an outside micrometer’s, DIN 863-1; its own table was not found',
        ),
        limit('base and plate not flat', um(5e-6), PRACTICE),
        step('step of the scale, read to half', halfOf(said('step'))),
        band('seating the base and feeling the bottom', said('feel'), PRACTICE),
      ];
    },
  },
  {
    type: 'feeler leaves',
    reads: 'length',
    settings: [
      asked('thickness', 'thickest leaf used', 'length', '0.010 in', '0.30 mm'),
      feel('0.0003 in', '0.008 mm'),
      asked('wear', 'worn or mismarked by ±', 'length', '0.0002 in', '0.005 mm'),
    ],
    check: 'a leaf in the micrometer',
    lines: ({ si, said }) => [
      leafLine(si('thickness')),
      limit('wear of the set', said('wear'), PRACTICE),
      band('what counts as drag', said('feel'), PRACTICE),
    ],
  },
  {
    type: 'straightedge and leaf',
    reads: 'length',
    settings: [
      asked('edge', 'straightedge straight to ±', 'length', '0.0004 in', '0.01 mm'),
      asked('thickness', 'thickest leaf used', 'length', '0.010 in', '0.30 mm'),
      feel('0.0005 in', '0.012 mm'),
    ],
    check: 'turned end for end on one face, or on a surface plate',
    lines: ({ si, said }) => [
      limit('straightedge', said('edge'), STATED),
      leafLine(si('thickness')),
      band('what counts as drag, and where it is laid', said('feel'), PRACTICE),
    ],
  },
  {
    type: 'dial indicator',
    reads: 'length',
    settings: [scaleStep('0.001 in', '0.01 mm'), feel('0.0003 in', '0.008 mm')],
    check: 'a gauge block or a leaf slid under it',
    lines: ({ said }) => [
      limit('dial over its travel', um(DIAL_INDICATOR.total), DIN_878),
      limit('coming back to one place', um(DIAL_INDICATOR.repeat), 'DIN 878, memory-likely', {
        share: 'own',
      }),
      step('step of the dial, read to half', halfOf(said('step'))),
      band('stand, slant of the stem, finding the turn', said('feel'), PRACTICE),
    ],
  },
  {
    type: 'plastic gauging strip',
    reads: 'length',
    settings: [
      asked('step', 'step between the widths on its card', 'length', '0.0005 in', '0.013 mm'),
      asked('batch', 'strip and card good to ±', 'length', '0.0003 in', '0.008 mm'),
      feel('0.0002 in', '0.005 mm'),
    ],
    check: 'a clearance that is known by micrometer and bore gauge',
    lines: ({ said }) => [
      limit('strip and card', said('batch'), PRACTICE),
      step('width taken as the nearest on the card', said('step')),
      band('squeezed unevenly, turned, or warm', said('feel'), PRACTICE),
    ],
  },
  {
    type: 'calliper',
    reads: 'length',
    settings: [
      range('6 in', '150 mm'),
      scaleStep('0.001 in', '0.02 mm'),
      {
        key: 'contact',
        label: 'taken',
        choices: ['outside', 'inside or depth'],
        usual: ['outside', 'outside'],
      },
      feel('0.0005 in', '0.015 mm'),
    ],
    check: 'zero, jaws closed, or a gauge block',
    lines: ({ si, said }) => {
      const error = calliperLimit(si('range'), si('step'), said('contact') !== 'outside');
      if (error === undefined)
        return 'DIN 862 is known here up to 500 mm with steps to .025 mm and to 300 mm with coarser: state U.';
      return [
        limit(
          'error of the scale and the jaws',
          um(error),
          'DIN 862, memory-likely; ISO 13385-1 leaves the figure to the maker',
        ),
        step('step of the scale', said('step')),
        band('feel of the jaws', said('feel'), PRACTICE),
      ];
    },
  },
  {
    type: 'steel rule',
    reads: 'length',
    settings: [range('12 in', '300 mm'), scaleStep('0.0156 in', '0.5 mm'), feel('0.015 in', '0.4 mm')],
    check: 'another rule, or the calliper',
    lines: ({ si, said }) => [
      limit(
        'limit of error of the rule',
        um(steelRuleLimit(si('range'))),
        '2014/32/EU, class II, memory-likely',
      ),
      step('step of the scale', said('step')),
      band('laying it on and reading it', said('feel'), PRACTICE),
    ],
  },
];
