import {
  gaugePressure,
  mapLimits,
  type PressureMap,
  pressureMap,
  pressureUnit,
  pressureVerdict,
  pressureWords,
  sheetGrid,
  wantedWords,
} from '@fettle/book';
import { exact, inUnit, parseQuantity } from '@fettle/core';
import { type Picture, type PressureMapChart, pressureMapSvg } from '@fettle/draw';
import { useCallback, useMemo, useState } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { book } from '../../state/job.ts';
import { circuitTried } from './clearances.ts';
import { isNothing, thought, thoughtIn } from './lifted.ts';
import type { Prediction } from './prediction.ts';

/** A place on the map, as typed: crank in rpm, sump in °C. */
interface Spot {
  readonly speed: string;
  readonly temperature: string;
}

const clamped = (share: number): number => Math.min(1, Math.max(0, share));

/** Where on the map a tap fell. */
function spotOf(event: MouseEvent, { speeds, temperatures }: PressureMap): Spot | undefined {
  if (!(event.currentTarget instanceof Element)) return undefined;
  const field = event.currentTarget.querySelector('[data-mark=tints]')?.getBoundingClientRect();
  if (!field || field.width === 0 || field.height === 0) return undefined;
  const along = (list: readonly number[], share: number): number =>
    list[0]! + clamped(share) * (list.at(-1)! - list[0]!);
  const speed = along(speeds, (event.clientX - field.left) / field.width);
  const temperature = along(temperatures, (event.clientY - field.top) / field.height);
  return {
    speed: String(Math.round(inUnit(speed, 'rpm') / 10) * 10),
    temperature: String(Math.round(inUnit(temperature, 'degC'))),
  };
}

/** The gauge over all speeds and temperatures between those the sheet names; follows what is thought. */
export function SpeedTemperature({ prediction }: { readonly prediction: Prediction }) {
  const { circuit } = prediction;
  const now = book.value;
  const said = thought.value;
  const of = useMemo(() => thoughtIn(circuit, said), [circuit, said]);
  const as = useMemo(() => circuitTried(circuit, of.values), [circuit, of]);
  const [spot, go] = useState<Spot>({
    speed: String(Math.round(inUnit(prediction.idle.speed, 'rpm'))),
    temperature: String(Math.round(inUnit(prediction.idle.temperature, 'degC'))),
  });
  const map = useMemo((): PressureMap | string | undefined => {
    const grid = sheetGrid(now.sheet);
    try {
      return grid && pressureMap(as, grid, { as: 'repaired', repairs: of.repairs });
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      return error.message;
    }
  }, [now, as, of]);
  const draw = useCallback(
    (picture: Picture): string => {
      if (typeof map !== 'object') return '';
      const unit = pressureUnit(now);
      const decimals = unit === 'bar' ? 2 : 1;
      const chart: PressureMapChart = {
        speedAxis: 'crank, rpm',
        temperatureAxis: 'sump, °C',
        pressureUnit: unit,
        speeds: map.speeds.map((speed) => inUnit(speed, 'rpm')),
        temperatures: map.temperatures.map((temperature) => inUnit(temperature, 'degC')),
        pressures: map.pressures.map((pressure) => inUnit(pressure, unit)),
        limits: mapLimits(now.sheet, map).map(({ speed, temperature, wanted, predicted }) => ({
          speed: inUnit(speed, 'rpm'),
          temperature: inUnit(temperature, 'degC'),
          mark: pressureVerdict(wanted, exact(predicted)) ?? 'not-read',
          text: `${wantedWords(wanted)}: ${inUnit(predicted, unit).toFixed(decimals)}`,
        })),
      };
      return pressureMapSvg(chart, picture);
    },
    [now, map],
  );
  if (map === undefined) return <p>The sheet names no speeds or no temperature, so there is no map.</p>;
  if (typeof map === 'string') return <p class="issue">{map}</p>;
  const figure = (): string => {
    const [speed, temperature] = [
      parseQuantity(`${spot.speed} rpm`, 'speed'),
      parseQuantity(`${spot.temperature} degC`, 'temperature'),
    ];
    if (!speed.ok || !temperature.ok || speed.value.value <= 0)
      return 'Give a speed over 0 in rpm and a temperature in °C.';
    const running = { speed: speed.value.value, temperature: temperature.value.value };
    try {
      return pressureWords(
        gaugePressure(as, running, { as: 'repaired', repairs: of.repairs }),
        pressureUnit(now),
      );
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      return `There is no balance there: ${error.message}`;
    }
  };
  return (
    <>
      <p>
        {isNothing(of) ? 'As measured.' : 'With the engine as thought.'} Tap the map for its figure there.
      </p>
      <Drawing
        title="Gauge pressure over speed and temperature"
        desc="Darker is higher; contour lines carry their figures. The marks stand where the sheet wants a pressure."
        draw={draw}
        widest={1000}
        onClick={(event) => {
          const there = spotOf(event, map);
          if (there) go(there);
        }}
      />
      <p class="spot">
        <label>
          Crank, rpm{' '}
          <input
            type="text"
            inputMode="decimal"
            value={spot.speed}
            onInput={({ currentTarget }) => go({ ...spot, speed: currentTarget.value })}
          />
        </label>{' '}
        <label>
          Sump, °C{' '}
          <input
            type="text"
            inputMode="decimal"
            value={spot.temperature}
            onInput={({ currentTarget }) => go({ ...spot, temperature: currentTarget.value })}
          />
        </label>{' '}
        <strong role="status">{figure()}</strong>
      </p>
      <p class="soft">
        The marks go by the middle of the prediction; the figure of one place carries its band.
      </p>
    </>
  );
}
