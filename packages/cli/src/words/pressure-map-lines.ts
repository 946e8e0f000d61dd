import {
  type Book,
  type FilledCircuit,
  type MapGrid,
  mapLimits,
  type PressureMap,
  pressureMap,
  pressureUnit,
  wantedPressure,
} from '@fettle/book';
import { inUnit, printQuantity } from '@fettle/core';
import { pressureMapText } from '@fettle/draw';
import { sheetConditions } from './pressure.ts';
import { heading } from './table.ts';

const RPM = Math.PI / 30;
const ZERO = 273.15;

/** What the sheet names, and round speeds and temperatures between: as many as a terminal holds. */
export function printedGrid(book: Book): MapGrid | undefined {
  const named = sheetConditions(book);
  if (!named || named.speeds.length === 0) return undefined;
  const speeds = named.speeds.map(({ si }) => si / RPM);
  const temperatures = [named.hot, ...(named.cold ? [named.cold] : [])].map(({ si }) => si - ZERO);
  const coldest = named.cold ? Math.min(...temperatures) : named.hot.si - ZERO - 40;
  return {
    speeds: withRound(speeds, Math.min(...speeds), Math.max(...speeds), 500).map((rpm) => rpm * RPM),
    temperatures: withRound(temperatures, coldest, Math.max(...temperatures) + 10, 10).map((t) => t + ZERO),
  };
}

/** The values named, and the multiples of a step that are not next to one of them; the step doubled while they are many. */
function withRound(named: readonly number[], from: number, to: number, step: number): number[] {
  const most = 10;
  let values: number[];
  do {
    const round: number[] = [];
    for (let k = Math.ceil(from / step); k * step <= to + 1e-9; k++)
      if (named.every((value) => Math.abs(value - k * step) > step * 0.4)) round.push(k * step);
    values = [...named, ...round];
    step *= 2;
  } while (values.length > Math.max(most, named.length));
  return [...new Set(values)].sort((a, b) => a - b);
}

/** @throws RangeError  when the network finds no balance somewhere */
export const measuredMap = (circuit: FilledCircuit, grid: MapGrid): PressureMap =>
  pressureMap(circuit, grid, { as: 'measured' });

/** Gauge pressure over speed and temperature, with what the sheet wants marked. */
export function mapLines(book: Book, map: PressureMap): string[] {
  const unit = pressureUnit(book);
  const decimals = unit === 'bar' ? 2 : 1;
  const limits = mapLimits(book.sheet, map);
  const cells = map.temperatures.map((temperature, t) =>
    map.speeds.map((speed, s) => {
      const pressure = map.pressures[t * map.speeds.length + s]!;
      const wanted = wantedPressure(book.sheet, { speed, temperature });
      const under = wanted?.lower !== undefined && pressure < wanted.lower;
      const over = wanted?.upper !== undefined && pressure > wanted.upper;
      const mark = under ? '▾' : over ? '▴' : wanted ? '✓' : undefined;
      return { text: inUnit(pressure, unit).toFixed(decimals), ...(mark && { mark }) };
    }),
  );
  return [
    ...heading(`Gauge pressure over speed and temperature, ${unit}, as measured`),
    ...pressureMapText({
      corner: 'sump',
      columns: map.speeds.map((speed) => printQuantity(speed, 'rpm', 0)),
      rows: map.temperatures.map((temperature) => printQuantity(temperature, 'degC', 0)),
      cells,
    }).map((line) => `  ${line}`),
    ...(limits.length > 0
      ? [
          '  ▾ under, ▴ over, ✓ within what the sheet wants there by the figure alone; the verdict with its band: fettle oil JOB.',
        ]
      : ['  The sheet wants nothing at any of these.']),
  ];
}

/** The same for programs, in SI: one row a temperature. */
export const mapJson = ({ speeds, temperatures, pressures }: PressureMap) => ({
  speeds,
  temperatures,
  pressures: temperatures.map((_, t) => [...pressures.slice(t * speeds.length, (t + 1) * speeds.length)]),
});
