import { finite } from './svg/finite.ts';
import { line, num, polygon, rect, stroke, svg, type } from './svg/marks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth, wrapped } from './svg/text-width.ts';

/** A place where oil meets: the gallery, the rocker shaft. */
export interface CircuitNode {
  readonly id: string;
  readonly name: string;
  /** Its pressure as printed. */
  readonly text: string;
  /** Where the gauge sits. */
  readonly gauge?: boolean | undefined;
}

/** One way of the oil, or several alike together; its flow is the width it is drawn with. */
export interface CircuitLine {
  readonly name: string;
  /** A node's id; undefined for the sump. */
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  /** In any unit, positive from `from` to `to`. */
  readonly flow: number;
  /** As printed. */
  readonly text: string;
  /** Its part of the whole, as printed. */
  readonly share?: string | undefined;
  /** What slips back inside the pump: drawn hollow. */
  readonly back?: boolean | undefined;
}

export interface CircuitDrawing {
  readonly nodes: readonly CircuitNode[];
  readonly lines: readonly CircuitLine[];
  /** Such as "sump". */
  readonly sump: string;
}

type Row =
  | { readonly kind: 'node'; readonly node: CircuitNode; readonly depth: number }
  | {
      readonly kind: 'line';
      readonly line: CircuitLine;
      readonly depth: number;
      /** To the sump; down to a node that follows; over to one drawn elsewhere. */
      readonly ends: 'sump' | 'below' | 'elsewhere' | 'source';
    };

/**
 * The circuit as a tree from the pump down: every node is an upright with its pressure, every way of the oil a line
 * from it, as wide as its flow, to the sump at the right edge or to the node it feeds below. A way between nodes
 * that are both drawn already names the other end.
 */
export function circuitDrawingSvg(circuit: CircuitDrawing, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small, line: thin, hair } = pen.size;
  const rows = rowsOf(circuit);
  const most = Math.max(0, ...circuit.lines.map(({ flow }) => Math.abs(finite(flow) ?? 0)));
  const widest = label * 1.3;
  const weight = (flow: number): number =>
    most > 0 ? Math.max(thin, (Math.abs(finite(flow) ?? 0) / most) * widest) : thin;
  const indent = label * 1.7;
  const upright = (depth: number): number => label * 0.7 + depth * indent;
  const sump = width - label * 0.7;
  const figures = Math.max(
    0,
    ...circuit.lines.map(({ text, share }) => textWidth(share ? `${text}  ${share}` : text, label)),
  );
  const drawn: string[] = [];
  const texts: string[] = [];
  const spans = new Map<string, { x: number; top: number; bottom: number }>();
  const within: string[] = [];
  let y = label * 1.7;
  for (const row of rows) {
    const x = upright(row.depth);
    if (row.kind === 'node') {
      const { node } = row;
      within.length = row.depth;
      within[row.depth] = node.id;
      spans.set(node.id, { x, top: y, bottom: y + label * 1.5 });
      const inset = node.gauge ? label * 1.9 : label * 0.6;
      if (node.gauge) drawn.push(dial(pen, x + label * 1.05, y + label * 0.75, label * 0.6));
      texts.push(
        type(pen, x + inset, y + label * 1.1, `${node.name}  ${node.text}`.trim(), {
          size: label,
          bold: true,
        }),
      );
      y += label * 1.6;
      continue;
    }
    const { line: way, ends } = row;
    const wide = weight(way.flow);
    const names = wrapped(way.name, label, sump - x - figures - label * 1.8);
    names.forEach((words, k) => {
      texts.push(type(pen, x + label * 0.6, y + label * (0.95 + k * 1.2), words, { size: label }));
    });
    texts.push(
      type(pen, sump - label * 0.6, y + label * 0.95, way.share ? `${way.text}  ${way.share}` : way.text, {
        size: label,
        anchor: 'end',
      }),
    );
    y += label * (0.25 + 1.2 * names.length);
    const middle = y + Math.max(wide, small * 0.6) / 2;
    const flows = Math.abs(finite(way.flow) ?? 0) > most * 1e-6;
    if (ends === 'below') drawn.push(turningDown(pen, x, x + indent, middle, wide, label));
    else {
      const end = ends === 'sump' ? sump : sump - label * 2;
      drawn.push(
        flows
          ? flowLine(pen, way, ends === 'source' ? sump : x, ends === 'source' ? x : end, middle, wide)
          : `<g data-mark="flow" data-width="0">${line(x, middle, end, middle, stroke(pen.soft, hair, `${num(hair * 2)} ${num(hair * 4)}`))}</g>`,
      );
    }
    y = middle + Math.max(wide, small * 0.6) / 2 + label * (ends === 'below' ? 0.9 : 0.35);
    const span = spans.get(within[row.depth] ?? '');
    if (span) span.bottom = middle + (flows ? wide / 2 : 0);
  }
  const bars = [...spans.values()].map(({ x, top, bottom }) =>
    line(x, top, x, bottom, stroke(pen.ink, pen.size.heavy)),
  );
  const bottom = y + small * 0.3;
  const pan = [
    line(sump, label * 1.4, sump, bottom, stroke(pen.soft, hair, `${num(hair * 4)} ${num(hair * 3)}`)),
    type(pen, width, label * 0.95, circuit.sump, { size: label, anchor: 'end', colour: pen.soft }),
  ];
  return svg(picture, pen, width, bottom, [...pan, ...bars, ...drawn, ...texts]);
}

/** Nodes and ways in the order they are drawn: each node's own leaks first, the greatest first, then what it feeds. */
function rowsOf({ nodes, lines }: CircuitDrawing): Row[] {
  const byId = new Map(nodes.map((node) => [node.id, node]));
  const drawn = new Set<string>();
  const used = new Set<CircuitLine>();
  const rows: Row[] = [];
  const visit = (id: string, depth: number): void => {
    const node = byId.get(id);
    if (!node || drawn.has(id)) return;
    drawn.add(id);
    rows.push({ kind: 'node', node, depth });
    const own = lines.filter((one) => one.from === id && !used.has(one));
    const drains = own.filter(({ to }) => to === undefined).sort((a, b) => b.flow - a.flow);
    for (const one of drains) {
      used.add(one);
      rows.push({ kind: 'line', line: one, depth, ends: 'sump' });
    }
    for (const one of own) {
      if (one.to === undefined || used.has(one)) continue;
      used.add(one);
      const feeds = byId.has(one.to) && !drawn.has(one.to);
      const named = byId.get(one.to)?.name ?? one.to;
      rows.push({
        kind: 'line',
        line: feeds ? one : { ...one, name: `${one.name} → ${named}` },
        depth,
        ends: feeds ? 'below' : 'elsewhere',
      });
      if (feeds) visit(one.to, depth + 1);
    }
  };
  for (const source of lines.filter(({ from, to }) => from === undefined && to !== undefined)) {
    used.add(source);
    rows.push({ kind: 'line', line: source, depth: 0, ends: 'source' });
    visit(source.to!, 0);
  }
  for (const { id } of nodes) visit(id, 0);
  return rows;
}

/** A way of the oil with its arrow, the head at the end it flows to. */
function flowLine(
  pen: Pen,
  { flow, back }: CircuitLine,
  from: number,
  to: number,
  y: number,
  wide: number,
): string {
  const forwards = flow >= 0;
  const [start, end] = forwards ? [from, to] : [to, from];
  const way = Math.sign(end - start);
  const head = Math.max(wide * 0.9, pen.size.small * 0.55);
  const neck = end - way * head;
  const half = wide / 2;
  const tip = Math.max(half * 1.5, pen.size.small * 0.32);
  const [left, right] = [Math.min(start, neck), Math.max(start, neck)];
  const look = back
    ? `fill="${pen.paper}" stroke="${pen.ink}" stroke-width="${num(pen.size.line * 0.8)}"`
    : `fill="${pen.ink}"`;
  return (
    `<g data-mark="flow" data-width="${num(wide)}">${rect(left, y - half, right - left, wide, look)}` +
    `${polygon(
      [
        [neck, y - tip],
        [end, y],
        [neck, y + tip],
      ],
      look,
    )}</g>`
  );
}

/** Along, then down into the upright of the node that comes next. */
function turningDown(pen: Pen, from: number, to: number, y: number, wide: number, label: number): string {
  const half = wide / 2;
  const tip = Math.max(half * 1.5, pen.size.small * 0.32);
  const foot = y + half + label * 0.9;
  const neck = foot - Math.max(wide * 0.9, pen.size.small * 0.55);
  return (
    `<g data-mark="flow" data-width="${num(wide)}">${rect(from, y - half, to - from + half, wide, `fill="${pen.ink}"`)}` +
    `${rect(to - half, y, wide, Math.max(0, neck - y), `fill="${pen.ink}"`)}` +
    `${polygon(
      [
        [to - tip, neck],
        [to + tip, neck],
        [to, foot],
      ],
      `fill="${pen.ink}"`,
    )}</g>`
  );
}

/** A pressure gauge: a dial and its needle. */
function dial(pen: Pen, x: number, y: number, r: number): string {
  const { line: thin } = pen.size;
  return (
    `<g data-mark="gauge"><circle cx="${num(x)}" cy="${num(y)}" r="${num(r)}" fill="${pen.paper}" stroke="${pen.ink}" stroke-width="${num(thin)}"/>` +
    `${line(x - r * 0.35, y + r * 0.35, x + r * 0.5, y - r * 0.5, stroke(pen.ink, thin))}</g>`
  );
}
