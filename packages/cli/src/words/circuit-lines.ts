import { type Book, type CircuitFlows, type FlowGroup, pressureUnit } from '@fettle/book';
import { inUnit, printQuantity } from '@fettle/core';
import { barsText } from '@fettle/draw';
import type { Condition } from './oil-lines.ts';
import { heading } from './table.ts';

const litres = (flow: number): string => printQuantity(flow, 'L/min', 2);

/** The circuit node by node: its pressure, and every way the oil takes from it. */
export function circuitLines(book: Book, condition: Condition, flows: CircuitFlows): string[] {
  const { groups, pressures, gauge, delivered, swept, back, cautions } = flows;
  const unit = pressureUnit(book);
  const pumps = groups.filter((way) => way.pumps);
  const whole = swept ?? delivered;
  const nodes = orderedNodes(flows);
  const rows = nodes.flatMap((node) => {
    const ways = groups.filter(({ from }) => from === node).sort((a, b) => b.flow - a.flow);
    const slip =
      pumps.some(({ to }) => to === node) && back !== undefined
        ? [{ name: 'back through the pump', flow: back }]
        : [];
    return [
      {
        head: `${node}${node === gauge ? ', where the gauge sits' : ''}: ${inUnit(pressures[node]!, unit).toFixed(unit === 'bar' ? 2 : 1)} ${unit}`,
      },
      ...slip.map(({ name, flow }) => ({ name, flow, share: flow / whole })),
      ...ways.map((way) => ({
        name: `${nameOf(way)}${way.to === undefined ? '' : ` → ${way.to}`}`,
        flow: way.flow,
        // What only passes oil on is counted where the oil ends.
        ...(way.drains && { share: way.flow / whole }),
      })),
    ];
  });
  const bars = barsText(
    rows.flatMap((row) =>
      'name' in row
        ? [
            {
              label: row.name,
              value: Math.max(0, row.flow),
              text: `${litres(row.flow)}${'share' in row ? `  ${Math.round(row.share * 100)} %` : ''}`,
            },
          ]
        : [],
    ),
  );
  return [
    ...heading(`The circuit at ${condition.speedWords} and ${condition.words}, as measured`),
    swept === undefined
      ? `  The pump delivers ${litres(delivered)}.`
      : `  The pump sweeps ${litres(swept)} and delivers ${litres(delivered)}.`,
    ...rows.map((row) => ('head' in row ? `  ${row.head}` : `    ${bars.shift()}`)),
    ...cautions.map(({ message }) => `  Caution: ${message}`),
  ];
}

const nameOf = ({ name, members }: FlowGroup): string =>
  members.length > 1 ? `${name} × ${members.length}` : name;

/** From the pump down. */
function orderedNodes({ groups, pressures }: CircuitFlows): string[] {
  const order = groups.flatMap(({ pumps, to }) => (pumps && to !== undefined ? [to] : []));
  for (const node of order)
    for (const { from, to } of groups)
      if (from === node && to !== undefined && !order.includes(to)) order.push(to);
  return [...new Set([...order, ...Object.keys(pressures)])];
}

/** The same for programs, in SI. */
export const circuitJson = (
  condition: Condition,
  { groups, pressures, swept, back, delivered, cautions }: CircuitFlows,
) => ({
  speed: condition.speed,
  temperature: condition.temperature,
  pressures,
  delivered,
  swept,
  back_through_the_pump: back,
  flows: groups,
  cautions,
});
