import { type CircuitFlows, circuitFlows, type FlowGroup, pressureUnit } from '@fettle/book';
import { inUnit, printQuantity } from '@fettle/core';
import { type CircuitDrawing, circuitDrawingSvg, type Picture } from '@fettle/draw';
import { useCallback, useMemo } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { book } from '../../state/job.ts';
import type { Prediction } from './prediction.ts';

const litres = (flow: number): string => printQuantity(flow, 'L/min', 2);

const nameOf = ({ name, members }: FlowGroup): string =>
  members.length > 1 ? `${name} × ${members.length}` : name;

function drawingOf({ groups, pressures, gauge, swept, back, delivered }: CircuitFlows, unit: string) {
  const whole = swept ?? delivered;
  const share = (flow: number) => ({ ...(whole > 0 && { share: `${Math.round((100 * flow) / whole)} %` }) });
  const fed = groups.find(({ pumps, to }) => pumps && to !== undefined)?.to;
  const chart: CircuitDrawing = {
    sump: 'sump',
    nodes: Object.entries(pressures).map(([id, pressure]) => ({
      id,
      name: id.replaceAll('-', ' '),
      text: `${inUnit(pressure, unit).toFixed(unit === 'bar' ? 2 : 1)} ${unit}`,
      gauge: id === gauge,
    })),
    lines: [
      ...groups.map((way) => ({
        name: nameOf(way),
        from: way.from,
        to: way.to,
        flow: inUnit(way.flow, 'L/min'),
        text: litres(way.flow),
        // What only passes oil on is counted where the oil ends.
        ...(way.drains && share(way.flow)),
      })),
      ...(back !== undefined && fed !== undefined
        ? [
            {
              name: 'back through the pump',
              from: fed,
              flow: inUnit(back, 'L/min'),
              text: litres(back),
              back: true,
              ...share(back),
            },
          ]
        : []),
    ],
  };
  return chart;
}

/** The circuit from the pump down, every way of the oil as wide as its flow. */
export function Circuit({ prediction }: { readonly prediction: Prediction }) {
  const { circuit, idle } = prediction;
  const unit = pressureUnit(book.value);
  const flows = useMemo(() => circuitFlows(circuit, idle, { as: 'measured' }), [circuit, idle]);
  const draw = useCallback(
    (picture: Picture) => circuitDrawingSvg(drawingOf(flows, unit), picture),
    [flows, unit],
  );
  return (
    <section>
      <h2>
        The circuit, at {idle.speedWords} and {idle.temperatureWords}
      </h2>
      <Drawing
        title="The oil circuit with its flows"
        desc={flows.groups.map((way) => `${nameOf(way)}: ${litres(way.flow)}`).join('; ')}
        draw={draw}
        widest={1240}
      />
      {flows.cautions.map(({ message }) => (
        <p key={message} class="caution">
          Caution: {message}
        </p>
      ))}
    </section>
  );
}
