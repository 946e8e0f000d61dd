import { inUnit, printQuantity } from '@fettle/core';
import { type FlowChart, flowBarsSvg, type Picture } from '@fettle/draw';
import { useCallback } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import type { Prediction } from './prediction.ts';

/** Where each litre ends. */
export function Flows({ prediction }: { readonly prediction: Prediction }) {
  const { flows, swept, idle } = prediction;
  const draw = useCallback(
    (picture: Picture): string => {
      const whole = flows.reduce((sum, { flow }) => sum + Math.max(0, flow), 0);
      const chart: FlowChart = {
        parts: flows.map(({ name, flow }) => ({
          name,
          value: inUnit(flow, 'L/min'),
          text: printQuantity(flow, 'L/min', 2),
          ...(whole > 0 && { share: `${((100 * flow) / whole).toFixed(0)} %` }),
        })),
        ...(swept !== undefined && {
          total: { name: 'the pump sweeps', text: printQuantity(swept, 'L/min', 2) },
        }),
      };
      return flowBarsSvg(chart, picture);
    },
    [flows, swept],
  );
  return (
    <section>
      <h2>
        Where each litre goes, at {idle.speedWords} and {idle.temperatureWords}
      </h2>
      <Drawing
        title="Where the oil goes"
        desc={flows.map(({ name, flow }) => `${name}: ${printQuantity(flow, 'L/min', 2)}`).join('; ')}
        draw={draw}
        widest={1240}
      />
    </section>
  );
}
