import { buretteLimit, cubicMetre, torqueToolLimit } from '@fettle/core';
import type { BudgetLine } from '../ledger/bodies.ts';
import { amountText } from './amount.ts';
import { asked, type Given, type InstrumentType, type Setting } from './instrument-type.ts';
import { band, halfOf, limit, PRACTICE, STATED, step } from './lines.ts';

const asPressure = (share: number, span: string): string => {
  const [, number = '', unit = ''] = /^([\d.]+)\s*(.*)$/.exec(span.trim()) ?? [];
  return `${Number(((Number(number) * share) / 100).toPrecision(4))} ${unit}`;
};

/** Tools that measure anything but a length. */
export const OTHER_TOOLS: readonly InstrumentType[] = [
  {
    type: 'spring tester',
    reads: 'ratio',
    settings: [
      asked('limit', 'its scale good to ±', 'ratio', '2 %'),
      asked('height', 'what the height set adds, ± at about 95 %', 'ratio', '2 %'),
    ],
    check: 'a weight that is known',
    lines: ({ said }) => [
      limit('its scale', said('limit'), STATED),
      band('height set, times the rate of the spring', said('height'), PRACTICE),
    ],
  },
  {
    type: 'torque wrench',
    reads: 'ratio',
    settings: [
      { key: 'made', label: 'set by', choices: ['scale', 'beam'], usual: ['scale', 'scale'] },
      asked('range', 'greatest torque', 'torque', '150 lbf.ft', '200 N.m'),
      asked('feel', 'your own pull, ± at about 95 %', 'ratio', '2 %'),
    ],
    check: 'another wrench, or a weight on an arm',
    lines: ({ si, said }) => [
      limit(
        'limit of error of the tool',
        amountText(torqueToolLimit(said('made') === 'beam' ? 'beam' : 'scale', si('range')), 'ratio', '%'),
        said('made') === 'beam' ? 'ISO 6789, memory-likely for beams' : 'ISO 6789',
      ),
      band('pull: speed, place of the hand', said('feel'), PRACTICE),
    ],
  },
  {
    type: 'oil pressure gauge',
    reads: 'pressure',
    settings: pressureSettings(['100 psi', '7 bar'], ['2 psi', '0.1 bar'], '1.6'),
    check: 'zero, and another gauge on one tee',
    lines: pressureLines,
  },
  {
    type: 'compression gauge',
    reads: 'pressure',
    settings: pressureSettings(['300 psi', '20 bar'], ['5 psi', '0.5 bar'], '2.5'),
    check: 'zero, and another gauge on one tee',
    lines: pressureLines,
  },
  {
    type: 'burette',
    reads: 'volume',
    settings: [
      {
        key: 'capacity',
        label: 'holds',
        choices: ['10 mL', '25 mL', '50 mL', '100 mL'],
        usual: ['50 mL', '50 mL'],
      },
      { key: 'class', label: 'class', choices: ['A', 'B'], usual: ['B', 'B'] },
      asked('step', 'step of its scale', 'volume', '0.1 mL'),
      asked('feel', 'bubble under the plate, drops, ± at about 95 %', 'volume', '0.3 mL'),
    ],
    check: 'water weighed',
    lines: ({ si, said }) => {
      const error = buretteLimit(cubicMetre(si('capacity')), said('class') === 'A' ? 'A' : 'B');
      if (error === undefined) return 'ISO 385 is known here for 10, 25, 50 and 100 mL: state U.';
      return [
        limit('limit of error of the burette', amountText(error, 'volume', 'mL'), 'ISO 385, ASTM E287'),
        step('step of the scale', said('step')),
        band('bubble under the plate, drops left behind', said('feel'), PRACTICE),
      ];
    },
  },
  {
    type: 'scale',
    reads: 'mass',
    settings: [
      asked('step', 'step of its display', 'mass', '0.1 g'),
      asked('limit', 'good to ±', 'mass', '0.2 g'),
    ],
    check: 'zero, and a weight that is known',
    lines: ({ said }) => [
      limit('limit of error of the scale', said('limit'), STATED),
      step('step of the display', said('step')),
      band('draught, and where on the pan', said('step'), PRACTICE),
    ],
  },
  {
    type: 'degree wheel',
    reads: 'angle',
    settings: [
      asked('step', 'step of its scale', 'angle', '1 deg'),
      asked('zero', 'top dead centre found to ±', 'angle', '0.5 deg'),
      asked('feel', 'pointer and eye, ± at about 95 %', 'angle', '0.5 deg'),
    ],
    check: 'top dead centre by a positive stop, both ways round',
    lines: ({ said }) => [
      limit('top dead centre, and the wheel off centre', said('zero'), PRACTICE),
      step('step of the scale', said('step')),
      band('pointer and eye', said('feel'), PRACTICE),
    ],
  },
  {
    type: 'thermometer',
    reads: 'temperature',
    settings: [
      asked('limit', 'good to ±', 'temperature', '1 K'),
      asked('step', 'step of its scale', 'temperature', '1 K'),
      asked('feel', 'contact with the part, ± at about 95 %', 'temperature', '1 K'),
    ],
    check: 'melting ice',
    lines: ({ said }) => [
      limit('limit of error of the thermometer', said('limit'), STATED),
      step('step of the scale', said('step')),
      band('contact with the part', said('feel'), PRACTICE),
    ],
  },
];

function pressureSettings(
  span: readonly [string, string],
  dial: readonly [string, string],
  usualClass: string,
): readonly Setting[] {
  return [
    asked('span', 'dial goes up to', 'pressure', ...span),
    {
      key: 'class',
      label: 'class',
      choices: ['0.1', '0.25', '0.6', '1', '1.6', '2.5', '4'],
      usual: [usualClass, usualClass],
    },
    asked('step', 'step of its dial', 'pressure', ...dial),
  ];
}

function pressureLines({ said }: Given): readonly BudgetLine[] {
  return [
    limit(
      'limit of error of the gauge',
      asPressure(Number(said('class')), said('span')),
      `EN 837-1, class ${said('class')}, of the whole dial`,
    ),
    step('step of the dial, read to half', halfOf(said('step'))),
    band('needle that trembles, taken by eye', halfOf(said('step')), PRACTICE),
  ];
}
