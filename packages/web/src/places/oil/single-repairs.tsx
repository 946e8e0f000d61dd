import { pressureUnit, pressureWords, wantedPressure } from '@fettle/book';
import { expanded, inUnit, printQuantity, type Uncertain } from '@fettle/core';
import { type Picture, type RepairChart, repairBarsSvg } from '@fettle/draw';
import { useCallback } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { book } from '../../state/job.ts';
import { gainOver } from './gain.ts';
import type { Prediction } from './prediction.ts';

/** What each repair would bring were it the only one. */
export function SingleRepairs({ prediction }: { readonly prediction: Prediction }) {
  const now = book.value;
  const unit = pressureUnit(now);
  const { idle, repairs } = prediction;
  const draw = useCallback(
    (picture: Picture): string => {
      const figure = (name: string, q: Uncertain) => {
        const U = inUnit(expanded(q).U, unit);
        const value = inUnit(q.value, unit);
        return {
          name,
          value,
          text: pressureWords(q, unit),
          ...(U > 0 && { low: value - U, high: value + U }),
        };
      };
      const lower = wantedPressure(now.sheet, idle)?.lower;
      const chart: RepairChart = {
        asMeasured: figure('as measured', idle.measured),
        repairs: repairs.map((one) => figure(one.repair, one.idle)),
        asNew: figure('everything as new', idle.asNew),
        ...(lower !== undefined && {
          required: { name: 'wanted', value: inUnit(lower, unit), text: printQuantity(lower, unit, 0) },
        }),
      };
      return repairBarsSvg(chart, picture);
    },
    [now, unit, idle, repairs],
  );
  return (
    <section>
      <h2>
        Each repair alone, at {idle.speedWords} and {idle.temperatureWords}
      </h2>
      <Drawing
        title="What each single repair would give"
        desc={repairs.map((one) => `${one.repair}: ${pressureWords(one.idle, unit)}`).join('; ')}
        draw={draw}
        widest={1240}
      />
      <ul class="lines gains">
        {repairs
          .toSorted((a, b) => b.idle.value - a.idle.value)
          .map((one) => (
            <li key={one.repair}>
              {one.repair}: <strong>{gainOver(one.idle, idle.measured, unit)}</strong>
            </li>
          ))}
      </ul>
      <p class="soft">
        ± is what the readings leave open in the gain, at about 95 %; what both states share drops out of it.
        Everything as new is by the sheet’s own figures, which carry no band.
      </p>
    </section>
  );
}
