import { exact, term, uncertain } from '@fettle/core';
import { expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { gaugeReadingsAt } from './gauge-readings.ts';
import { pressureVerdict, wantedPressure } from './pressure-limit.ts';

const PSI = 6894.757;
const RPM = (2 * Math.PI) / 60;
const hot = (rpm: number) => ({ speed: rpm * RPM, temperature: 273.15 + 93 });
const source = { document: 'made', trust: 'assumed' };
const bench = () =>
  new Bench({
    oil: {
      grades: { thin: { name: 'Thin', kv40: '93 mm2/s', kv100: '10.8 mm2/s' } },
      fill: 'thin',
      density15: '885 kg/m3',
      hot: '93 degC',
      speeds: ['600 rpm'],
      pressures: [
        { speed: '600 rpm', temperature: '93 degC', lower: '15 psi', source },
        { speed: '2000 rpm', temperature: '93 degC', lower: '40 psi', upper: '48 psi', source },
      ],
    },
  });

it('wants what the sheet says for just that speed and temperature', () => {
  const { sheet } = bench().tiny;
  expect(wantedPressure(sheet, hot(600))?.lower).toBeCloseTo(15 * PSI, 0);
  expect(wantedPressure(sheet, hot(600))?.upper).toBeUndefined();
  expect(wantedPressure(sheet, hot(2000))?.upper).toBeCloseTo(48 * PSI, 0);
  expect(wantedPressure(sheet, hot(1000))).toBeUndefined();
  expect(wantedPressure(sheet, { ...hot(600), temperature: 293.15 })).toBeUndefined();
});

it('weighs the prediction with its doubt', () => {
  const wanted = wantedPressure(bench().tiny.sheet, hot(600))!;
  expect(pressureVerdict(wanted, exact(16 * PSI))).toBe('in');
  expect(pressureVerdict(wanted, exact(14 * PSI))).toBe('out');
  expect(pressureVerdict(wanted, uncertain(16 * PSI, term('clearance', PSI)))).toBe('cannot-tell');
});

it('holds a gauge reading beside a prediction only at about its speed and temperature', () => {
  const made = bench();
  const gauge = (speed: string, temperature?: string) =>
    made.desk.write('gauge-reading', {
      pressure: '7.5 psi',
      speed,
      instrument: 'gauge',
      when: 'as-found',
      ...(temperature !== undefined && { temperature }),
    });
  const near = gauge('610 rpm', '91 degC');
  gauge('650 rpm', '93 degC');
  gauge('600 rpm', '60 degC');
  gauge('600 rpm');
  expect(gaugeReadingsAt(made.book(), hot(600)).map(({ entry }) => entry.id)).toEqual([near.id]);
});
