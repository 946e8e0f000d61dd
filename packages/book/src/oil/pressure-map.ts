import { parseQuantity } from '@fettle/core';
import type { SpecSheet } from '../sheet/sheet.ts';
import type { FilledCircuit } from './circuit.ts';
import { gaugeAt } from './gauge-at.ts';
import type { EngineState, Running } from './pressure.ts';
import { type WantedPressure, wantedPressure } from './pressure-limit.ts';

/** Gauge pressure over speed and temperature. */
export interface PressureMap {
  /** Of the crank [rad/s], rising. */
  readonly speeds: readonly number[];
  /** Of the sump [K], rising. */
  readonly temperatures: readonly number[];
  /** [Pa], row by row: all speeds at the first temperature, then at the next. */
  readonly pressures: Float64Array;
}

export interface MapGrid {
  readonly speeds: readonly number[];
  readonly temperatures: readonly number[];
}

/**
 * Every pressure of a grid, each solved from its neighbour.
 *
 * @throws RangeError  when the network finds no balance somewhere
 */
export function pressureMap(circuit: FilledCircuit, grid: MapGrid, state: EngineState): PressureMap {
  const speeds = [...grid.speeds].sort((a, b) => a - b);
  const temperatures = [...grid.temperatures].sort((a, b) => a - b);
  const values = circuit.parameters.map(({ nominal, measured, repaired, repair }) =>
    state.as === 'new'
      ? nominal
      : state.as === 'repaired' && state.repairs.includes(repair)
        ? repaired
        : (measured?.value ?? nominal),
  );
  const pressures = new Float64Array(speeds.length * temperatures.length);
  const gauge = gaugeAt(circuit);
  temperatures.forEach((temperature, t) => {
    speeds.forEach((_, k) => {
      // To and fro, so that each neighbour lies beside the one before.
      const s = t % 2 === 0 ? k : speeds.length - 1 - k;
      pressures[t * speeds.length + s] = gauge({ speed: speeds[s]!, temperature })(values);
    });
  });
  return { speeds, temperatures, pressures };
}

/**
 * A grid that spans what the sheet speaks of: from its slowest speed to its fastest, from cold to 10 K over its hot
 * oil, its own speeds and temperatures among the lines.
 *
 * @returns undefined where the sheet names no speed
 */
export function sheetGrid(sheet: SpecSheet | undefined, speeds = 40, temperatures = 30): MapGrid | undefined {
  const oil = sheet?.oil;
  const read = (texts: readonly (string | undefined)[], kind: 'speed' | 'temperature'): number[] =>
    texts.flatMap((text) => {
      const quantity = text === undefined ? undefined : parseQuantity(text, kind);
      return quantity?.ok ? [quantity.value.value] : [];
    });
  if (!oil) return undefined;
  const named = read([...oil.speeds, ...oil.pressures.map(({ speed }) => speed)], 'speed');
  const hot = read([oil.hot, ...oil.pressures.map(({ temperature }) => temperature)], 'temperature');
  const cold = read([oil.cold], 'temperature');
  if (named.length === 0 || hot.length === 0) return undefined;
  const coldest = cold[0] ?? Math.min(...hot) - 40;
  return {
    speeds: spanned(Math.min(...named), Math.max(...named), speeds, named),
    temperatures: spanned(coldest, Math.max(...hot) + 10, temperatures, [...cold, ...hot]),
  };
}

/** Evenly from one end to the other, each value named put in the place of the line nearest to it. */
function spanned(from: number, to: number, count: number, named: readonly number[]): number[] {
  if (to <= from) return [from];
  const step = (to - from) / (count - 1);
  const lines = Array.from({ length: count }, (_, i) => from + i * step);
  for (const value of named) lines[Math.round((value - from) / step)] = value;
  return [...new Set(lines)].sort((a, b) => a - b);
}

/** A pressure the sheet wants somewhere on the map, and what the map says there. */
export interface MapLimit extends Running {
  readonly wanted: WantedPressure;
  /** [Pa] */
  readonly predicted: number;
}

/** Pressures the sheet wants at lines of the map. */
export function mapLimits(sheet: SpecSheet | undefined, map: PressureMap): MapLimit[] {
  return map.temperatures.flatMap((temperature, t) =>
    map.speeds.flatMap((speed, s) => {
      const wanted = wantedPressure(sheet, { speed, temperature });
      return wanted
        ? [{ speed, temperature, wanted, predicted: map.pressures[t * map.speeds.length + s]! }]
        : [];
    }),
  );
}
