import { expanded, inUnit, linear, printQuantity, type Uncertain } from '@fettle/core';
import { type FlowChart, flowBarsSvg, type Picture } from '@fettle/draw';
import { useCallback, useMemo } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { grade } from './grade-choice.tsx';
import { isNothing, thought, thoughtIn } from './lifted.ts';
import type { DoubtfulFlow } from './oil-asked.ts';
import { flowName, type Prediction } from './prediction.ts';
import { useRested } from './trials.tsx';
import { useWorked } from './worked.ts';

const UNIT = 'L/min';

/** `1.23 ±0.05 L/min` */
function litres(q: Uncertain): string {
  const U = inUnit(expanded(q).U, UNIT).toFixed(2);
  return printQuantity(q.value, UNIT, 2).replace(/^\S+/, (n) => (Number(U) === 0 ? n : `${n} ±${U}`));
}

interface Ended {
  readonly name: string;
  readonly flow: Uncertain;
}

const sum = (flows: readonly Uncertain[]): Uncertain => linear(flows.map((of) => ({ factor: 1, of })));

/** Flows of like elements together, with the doubt that the readings leave in them. */
function grouped(shares: readonly DoubtfulFlow[], swept: number | undefined): Ended[] {
  const groups = new Map<string, Uncertain[]>();
  for (const { element, flow, drains } of shares)
    if (drains) groups.set(flowName(element), [...(groups.get(flowName(element)) ?? []), flow]);
  const delivered = sum(shares.flatMap(({ pumps, flow }) => (pumps ? [flow] : [])));
  const back = linear([
    { factor: 1, of: { value: swept ?? 0, terms: [] } },
    { factor: -1, of: delivered },
  ]);
  return [
    ...(swept === undefined ? [] : [{ name: 'back through the pump', flow: back }]),
    ...[...groups]
      .map(([name, flows]) => ({ name, flow: sum(flows) }))
      .sort((a, b) => b.flow.value - a.flow.value),
  ];
}

/** Where each litre ends: at once as measured, then with its doubt and as thought. */
export function Flows({ prediction }: { readonly prediction: Prediction }) {
  const { flows, swept, idle, circuit } = prediction;
  const said = thought.value;
  const of = useRested(useMemo(() => thoughtIn(circuit, said), [circuit, said]));
  const { answer, busy } = useWorked({
    about: 'flows',
    grade: grade.value,
    running: { speed: idle.speed, temperature: idle.temperature },
    thought: of,
  });
  const shown = useMemo(
    () =>
      answer?.ok
        ? grouped(answer.value, swept)
        : flows.map(({ name, flow }): Ended => ({ name, flow: { value: flow, terms: [] } })),
    [answer, flows, swept],
  );
  const draw = useCallback(
    (picture: Picture): string => {
      const whole = shown.reduce((all, { flow }) => all + Math.max(0, flow.value), 0);
      const chart: FlowChart = {
        parts: shown.map(({ name, flow }) => ({
          name,
          value: inUnit(flow.value, UNIT),
          text: litres(flow),
          ...(whole > 0 && { share: `${((100 * flow.value) / whole).toFixed(0)} %` }),
        })),
        ...(swept !== undefined && {
          total: { name: 'the pump sweeps', text: printQuantity(swept, UNIT, 2) },
        }),
      };
      return flowBarsSvg(chart, picture);
    },
    [shown, swept],
  );
  return (
    <section data-busy={busy}>
      <h2>
        Where each litre goes, at {idle.speedWords} and {idle.temperatureWords}
        {isNothing(of) ? '' : ', in thought'}
      </h2>
      <Drawing
        title="Where the oil goes"
        desc={shown.map(({ name, flow }) => `${name}: ${litres(flow)}`).join('; ')}
        draw={draw}
        widest={1240}
      />
      <p class="soft">
        ± is what the readings leave open, at about 95 %; what rests on nothing measured shows none.
      </p>
    </section>
  );
}
