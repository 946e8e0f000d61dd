import {
  type Book,
  gaugeReadingsAt,
  pressureUnit,
  pressureWords,
  wantedPressure,
  wantedWords,
} from '@fettle/book';
import { expanded, inUnit, parseQuantity, type Uncertain } from '@fettle/core';
import { type Picture, type PressureChart, pressureCurveSvg } from '@fettle/draw';
import { useCallback, useState } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { book } from '../../state/job.ts';
import { grade } from './grade-choice.tsx';
import type { Predicted } from './prediction.ts';

/** From this width on there is room beside the points for what the sheet wants [px]. */
const ROOM = 760;
/** A finger misses a point by so much [px]. */
const NEAR = 48;

const rpm = (si: number): number => inUnit(si, 'rpm');

function chartOf(now: Book, rows: readonly Predicted[], thought: boolean, worded: boolean): PressureChart {
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
  const as = thought ? ', in thought' : '';
  const hot = rows.filter(({ cold }) => !cold);
  const cold = rows.filter((row) => row.cold);
  return {
    speedAxis: 'crank, rpm',
    pressureAxis: `gauge, ${unit}`,
    curves: [
      line(`hot, ${hot[0]?.temperatureWords ?? ''}${as}`, 'solid', hot, ({ measured }) => measured),
      ...(cold.length > 0
        ? [line(`cold, ${cold[0]!.temperatureWords}${as}`, 'dashed', cold, ({ measured }) => measured)]
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
          // Where there is little room the words would lie over the points: they stand under the picture.
          text: worded ? wantedWords(wanted) : '',
        },
      ];
    }),
    gauge: rows.flatMap((row) =>
      gaugeReadingsAt(now, row, grade.value).flatMap(({ body }) => {
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
  /** Whether the rows are of an engine in thought. */
  readonly thought: boolean;
}

/** The point of a curve nearest to a tap, as number of curve and of point. */
function nearest(event: MouseEvent): { curve: number; point: number } | undefined {
  if (!(event.currentTarget instanceof Element)) return undefined;
  const lines = [...event.currentTarget.querySelectorAll<SVGPolylineElement>('[data-mark=curve] polyline')];
  let found: { curve: number; point: number; away: number } | undefined;
  lines.forEach((one, curve) => {
    const to = one.getScreenCTM();
    for (const [point, at] of [...one.points].entries()) {
      if (!to) continue;
      const on = at.matrixTransform(to);
      const away = Math.hypot(on.x - event.clientX, on.y - event.clientY);
      if (away <= NEAR && away < (found?.away ?? Number.POSITIVE_INFINITY)) found = { curve, point, away };
    }
  });
  return found;
}

/** The gauge over the speeds of the sheet, with what it must not fall short of. */
export function Curve({ rows, thought }: Shown) {
  const now = book.value;
  const unit = pressureUnit(now);
  const [tapped, tap] = useState<{ curve: number; point: number } | undefined>(undefined);
  const draw = useCallback(
    (picture: Picture) => pressureCurveSvg(chartOf(now, rows, thought, picture.width >= ROOM), picture),
    [now, rows, thought],
  );
  const desc = rows
    .map((row) => `${row.temperatureWords}, ${row.speedWords}: ${pressureWords(row.measured, unit)}`)
    .join('; ');
  const wanted = rows.flatMap((row) => {
    const one = wantedPressure(now.sheet, row);
    return one ? [`${row.speedWords}, ${row.temperatureWords}: ${wantedWords(one)}`] : [];
  });
  return (
    <>
      <Drawing
        title="Gauge pressure against speed"
        desc={desc}
        draw={draw}
        widest={1240}
        onClick={(event) => tap(nearest(event))}
      />
      <p class="tapped" role="status">
        {tapped ? (
          <PointWords rows={rows} {...tapped} />
        ) : (
          <span class="soft">Tap a point for its figure.</span>
        )}
      </p>
      {wanted.length > 0 ? <p class="soft">The sheet wants: {wanted.join('; ')}.</p> : null}
    </>
  );
}

interface Point {
  readonly rows: readonly Predicted[];
  /** Hot, then cold where there is one, then as new. */
  readonly curve: number;
  readonly point: number;
}

function PointWords({ rows, curve, point }: Point) {
  const unit = pressureUnit(book.value);
  const bySpeed = (list: readonly Predicted[]) => list.toSorted((a, b) => a.speed - b.speed);
  const hot = bySpeed(rows.filter(({ cold }) => !cold));
  const cold = bySpeed(rows.filter((row) => row.cold));
  const isNew = curve === (cold.length > 0 ? 2 : 1);
  const row = (curve === 1 && !isNew ? cold : hot)[point];
  return row ? (
    <>
      {row.speedWords}, {row.temperatureWords}
      {isNew ? ', as new' : ''}: <strong>{pressureWords(isNew ? row.asNew : row.measured, unit)}</strong>
      {isNew ? ', by the sheet’s own figures, which carry no band' : ''}
    </>
  ) : null;
}
