import { type Book, gaugeReadingsAt, wantedPressure } from '@fettle/book';
import { expanded, inUnit, parseQuantity, type Uncertain } from '@fettle/core';
import { type Picture, type PressureChart, pressureCurveSvg } from '@fettle/draw';
import { useCallback } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { book } from '../../state/job.ts';
import { pressureUnit, pressureWords, wantedWords } from '../../words/pressure.ts';
import type { Predicted } from './prediction.ts';

const rpm = (si: number): number => inUnit(si, 'rpm');

function chartOf(now: Book, rows: readonly Predicted[], lifted: number): PressureChart {
  const unit = pressureUnit(now);
  const p = (si: number): number => inUnit(si, unit);
  const line = (
    name: string,
    style: 'solid' | 'dashed' | 'dotted',
    list: readonly Predicted[],
    of: (row: Predicted) => Uncertain,
  ) => ({
    name,
    style,
    points: list.map((row) => {
      const q = of(row);
      const U = expanded(q).U;
      return {
        speed: rpm(row.speed),
        value: p(q.value),
        ...(U > 0 && { low: p(q.value - U), high: p(q.value + U) }),
      };
    }),
  });
  const thought = lifted > 0 ? `, ${lifted} lifted` : '';
  const hot = rows.filter(({ cold }) => !cold);
  const cold = rows.filter((row) => row.cold);
  return {
    speedAxis: 'crank, rpm',
    pressureAxis: `gauge, ${unit}`,
    curves: [
      line(`hot, ${hot[0]?.temperatureWords ?? ''}${thought}`, 'solid', hot, ({ measured }) => measured),
      ...(cold.length > 0
        ? [line(`cold, ${cold[0]!.temperatureWords}${thought}`, 'dashed', cold, ({ measured }) => measured)]
        : []),
      line('as new, hot', 'dotted', hot, ({ asNew }) => asNew),
    ],
    limits: rows.flatMap((row) => {
      const wanted = wantedPressure(now.sheet, row);
      if (!wanted) return [];
      const { lower, upper } = wanted;
      return [
        {
          speed: rpm(row.speed),
          ...(lower !== undefined && { lower: p(lower) }),
          ...(upper !== undefined && { upper: p(upper) }),
          text: wantedWords(wanted),
        },
      ];
    }),
    gauge: rows.flatMap((row) =>
      gaugeReadingsAt(now, row).flatMap(({ body }) => {
        const read = parseQuantity(body.pressure, 'pressure');
        const U = now.instruments.get(body.instrument)?.body.uncertainty.expanded;
        const half = U === undefined ? undefined : parseQuantity(U, 'pressure');
        return read.ok
          ? [
              {
                speed: rpm(row.speed),
                value: p(read.value.value),
                ...(half?.ok && { half: p(half.value.value) }),
                cold: row.cold,
              },
            ]
          : [];
      }),
    ),
    gaugeName: 'a gauge showed',
  };
}

interface Shown {
  readonly rows: readonly Predicted[];
  /** How many treads are lifted in thought; the rows have them made. */
  readonly lifted: number;
}

/** The gauge over the speeds of the sheet, with what it must not fall short of. */
export function Curve({ rows, lifted }: Shown) {
  const now = book.value;
  const unit = pressureUnit(now);
  const draw = useCallback(
    (picture: Picture) => pressureCurveSvg(chartOf(now, rows, lifted), picture),
    [now, rows, lifted],
  );
  const desc = rows
    .map((row) => `${row.temperatureWords}, ${row.speedWords}: ${pressureWords(row.measured, unit)}`)
    .join('; ');
  return <Drawing title="Gauge pressure against speed" desc={desc} draw={draw} widest={1240} />;
}
