import { expect, it } from 'vitest';
import { oiledBench } from '../testing/oiled-sheet.ts';
import { gaugeReadingsAt } from './gauge-readings.ts';

const IDLE = { speed: (600 * Math.PI) / 30, temperature: 273.15 + 93 };

it('holds a gauge reading beside the prediction of the oil that was in, and of no other', () => {
  const bench = oiledBench();
  const shown = (pressure: string, oil?: string) =>
    bench.desk.write('gauge-reading', {
      pressure,
      speed: '600 rpm',
      temperature: '93 degC',
      instrument: 'gauge',
      when: 'as-found',
      ...(oil !== undefined && { oil }),
    });
  shown('7 psi');
  shown('9 psi', 'thick');
  const at = (grade?: string) => gaugeReadingsAt(bench.book(), IDLE, grade).map(({ body }) => body.pressure);
  expect(at()).toEqual(['7 psi']);
  expect(at('thin')).toEqual(['7 psi']);
  expect(at('thick')).toEqual(['9 psi']);
});
