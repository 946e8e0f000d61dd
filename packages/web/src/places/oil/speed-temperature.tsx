import {
  mapLimits,
  type PressureMap,
  pressureMap,
  pressureVerdict,
  repairsOf,
  sheetGrid,
} from '@fettle/book';
import { exact, inUnit } from '@fettle/core';
import { type Picture, type PressureMapChart, pressureMapSvg } from '@fettle/draw';
import { useCallback, useMemo } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { book } from '../../state/job.ts';
import { pressureUnit, wantedWords } from '../../words/pressure.ts';
import { lifted } from './lifted.ts';
import type { Prediction } from './prediction.ts';

/** The gauge over all speeds and temperatures between those the sheet names; follows what is lifted. */
export function SpeedTemperature({ prediction: { circuit } }: { readonly prediction: Prediction }) {
  const now = book.value;
  const said = lifted.value;
  const repairs = useMemo(() => repairsOf(circuit).filter((one) => said.includes(one)), [circuit, said]);
  const map = useMemo((): PressureMap | string | undefined => {
    const grid = sheetGrid(now.sheet);
    try {
      return grid && pressureMap(circuit, grid, { as: 'repaired', repairs });
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      return error.message;
    }
  }, [now, circuit, repairs]);
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
  return (
    <>
      <p>
        {repairs.length === 0 ? 'As measured.' : `With these repaired in thought: ${repairs.join('; ')}.`}
      </p>
      <Drawing
        title="Gauge pressure over speed and temperature"
        desc="Darker is higher; contour lines carry their figures. The marks stand where the sheet wants a pressure."
        draw={draw}
        widest={1000}
      />
      <p class="soft">
        Without bands: the marks go by the middle of the prediction; the figure at the top of the page judges
        with its doubt.
      </p>
    </>
  );
}
