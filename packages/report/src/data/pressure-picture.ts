import { type Book, gaugeReadingsAt, wantedPressure } from '@fettle/book';
import { expanded, inUnit, parseQuantity } from '@fettle/core';
import { type GaugePoint, type PressureLimit, pressureCurveSvg } from '@fettle/draw';
import { printableText } from '../printable.ts';
import { rangeWords } from '../words/printed-quantity.ts';
import { TEXT_WIDTH } from './maps.ts';
import type { Prediction } from './prediction.ts';

/** Hot and cold, and no more: a third curve would need a third style. */
const SUMPS = 2;

/** The predicted pressure over speed with its band, what the sheet wants, and what gauges showed. */
export function pressurePicture(book: Book, { rows, unit }: Prediction) {
  if (new Set(rows.map(({ condition }) => condition.speed)).size < 2) return null;
  const sumps = [...new Set(rows.map(({ condition }) => condition.sump))].slice(0, SUMPS);
  const rpm = (speed: number): number => inUnit(speed, 'rpm');
  const shown = rows.filter(({ condition }) => sumps.includes(condition.sump));
  const limits = shown.flatMap(({ condition }): PressureLimit[] => {
    const wanted = wantedPressure(book.sheet, condition);
    if (!wanted) return [];
    return [
      {
        speed: rpm(condition.speed),
        lower: wanted.lower === undefined ? undefined : inUnit(wanted.lower, unit),
        upper: wanted.upper === undefined ? undefined : inUnit(wanted.upper, unit),
        text: printableText(rangeWords(wanted.printed.lower, wanted.printed.upper)),
      },
    ];
  });
  const gauge = shown.flatMap(({ condition }) =>
    gaugeReadingsAt(book, condition).flatMap(({ body }): GaugePoint[] => {
      const read = parseQuantity(body.pressure, 'pressure');
      if (!read.ok) return [];
      return [
        {
          speed: rpm(condition.speed),
          value: inUnit(read.value.value, unit),
          cold: condition.sump !== sumps[0],
        },
      ];
    }),
  );
  const alt = `Predicted gauge pressure in ${unit} against crank speed, ${sumps.join(' and ')}, as measured and as new; the figures are in the table above.`;
  const curve = (which: 'measured' | 'asNew', sump: string) =>
    shown
      .filter(({ condition }) => condition.sump === sump)
      .map((row) => {
        const [value, half] = [inUnit(row[which].value, unit), inUnit(expanded(row[which]).U, unit)];
        return { speed: rpm(row.condition.speed), value, low: value - half, high: value + half };
      });
  return {
    alt,
    svg: pressureCurveSvg(
      {
        speedAxis: 'rpm',
        pressureAxis: unit,
        curves: [
          ...sumps.map((sump, i) => ({
            name: sump.split(',')[0]!,
            style: i === 0 ? ('solid' as const) : ('dashed' as const),
            points: curve('measured', sump),
          })),
          ...sumps.slice(0, 1).map((sump) => ({
            name: `${sump.split(',')[0]!}, as new`,
            style: 'dotted' as const,
            points: curve('asNew', sump).map(({ speed, value }) => ({ speed, value })),
          })),
        ],
        limits,
        gauge,
        ...(gauge.length > 0 && { gaugeName: 'a real gauge (hollow: cold)' }),
      },
      { title: 'Predicted pressure', desc: alt, width: TEXT_WIDTH, profile: 'paper', paper: true },
    ),
  };
}
