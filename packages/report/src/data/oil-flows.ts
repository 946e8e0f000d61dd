import { type FilledCircuit, oilShares, type Running, sweptFlow } from '@fettle/book';
import { inUnit, printQuantity } from '@fettle/core';
import { flowBarsSvg } from '@fettle/draw';
import { printableText } from '../printable.ts';
import { TEXT_WIDTH } from './maps.ts';
import type { Prediction } from './prediction.ts';

const NUMBERED = /[-.]?\d+$/;

/** Where the oil ends, like elements together (main-1, main-2 and main-3 are the mains), the most first. */
function flowsAt(circuit: FilledCircuit, idle: Running) {
  const { shares } = oilShares(circuit, idle, { as: 'measured' });
  const groups = new Map<string, number>();
  for (const { element, flow, drains } of shares) {
    // What only passes oil on is counted where the oil ends.
    if (!drains) continue;
    const name = element.replace(NUMBERED, '').replaceAll('-', ' ');
    groups.set(name, (groups.get(name) ?? 0) + flow);
  }
  const delivered = shares.find(({ pumps }) => pumps)?.flow ?? 0;
  const swept = sweptFlow(circuit, idle);
  const ended = [...groups].map(([name, flow]) => ({ name, flow })).sort((a, b) => b.flow - a.flow);
  const back =
    swept === undefined ? [] : [{ name: 'back through the pump', flow: Math.max(0, swept - delivered) }];
  return { flows: [...back, ...ended], swept };
}

/** Where each litre goes at hot idle, with the clearances as measured. */
export function oilFlows({ circuit, rows }: Prediction) {
  const idle = rows[0];
  if (!idle) return null;
  const { flows, swept } = flowsAt(circuit, idle.condition);
  const whole = flows.reduce((sum, { flow }) => sum + Math.max(0, flow), 0);
  if (!(whole > 0)) return null;
  const litres = (flow: number): string => printQuantity(flow, 'L/min', 2);
  const parts = flows.map(({ name, flow }) => ({
    name: printableText(name),
    value: inUnit(flow, 'L/min'),
    text: litres(flow),
    share: `${((100 * flow) / whole).toFixed(0)} %`,
  }));
  const alt = `Where the oil goes: ${parts.map(({ name, text, share }) => `${name} ${text}, ${share}`).join('; ')}.`;
  return {
    alt,
    svg: flowBarsSvg(
      { parts, ...(swept !== undefined && { total: { name: 'the pump sweeps', text: litres(swept) } }) },
      { title: 'Where each litre goes', desc: alt, width: TEXT_WIDTH, profile: 'paper', paper: true },
    ),
  };
}
