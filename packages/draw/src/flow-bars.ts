import { kept } from './svg/finite.ts';
import { line, num, rect, stroke, svg, type } from './svg/marks.ts';
import { penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth, wrapped } from './svg/text-width.ts';

/** One way that the oil takes. */
export interface FlowPart {
  readonly name: string;
  /** In the unit that `text` is printed in. */
  readonly value: number;
  readonly text: string;
  /** Its part of the whole, as printed. */
  readonly share?: string | undefined;
}

/** Where each litre goes, in the order given. */
export interface FlowChart {
  readonly parts: readonly FlowPart[];
  /** The sum, as the caller prints it. */
  readonly total?: { readonly name: string; readonly text: string } | undefined;
}

/**
 * Where each litre goes: every bar begins where the one above it ended, so that together they make the whole.
 * A negative flow, which a leak cannot have, is left without a bar; its figure is printed all the same.
 */
export function flowBarsSvg(flow: FlowChart, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small, hair, line: thin } = pen.size;
  const drawn = (value: number): number => (Number.isFinite(value) ? Math.max(0, value) : 0);
  const whole = flow.parts.reduce((sum, { value }) => sum + drawn(value), 0);
  const wide = width >= label * 32;
  const rows = [...flow.parts, ...(flow.total ? [{ ...flow.total, share: undefined }] : [])];
  const widest = (texts: readonly string[], bold = false): number =>
    Math.max(0, ...texts.map((text) => textWidth(text, label, bold)));
  const names = wide
    ? Math.min(
        width * 0.36,
        widest(
          rows.map(({ name }) => name),
          true,
        ) + label,
      )
    : 0;
  const shares = widest(rows.map(({ share }) => share ?? ''));
  const figures =
    widest(
      rows.map(({ text }) => text),
      true,
    ) +
    label * 0.8;
  const column = width - (shares > 0 ? shares + label * 0.8 : 0);
  const [left, right] = [names + thin, wide ? column - figures : width - thin];
  const at = (part: number): number => left + (whole > 0 ? kept(part / whole, 0, 1) : 0) * (right - left);
  const bar = label * (wide ? 1.05 : 0.85);
  const marks: string[] = [];
  let [y, before] = [label * 0.3, 0];

  const texts = (name: string, text: string, share: string | undefined, bold: boolean): number => {
    const room = wide ? names - label * 0.6 : column - figures - label * 0.4;
    const lines = wrapped(name, label, room, bold);
    const deep = wide
      ? Math.max(label * 1.9, lines.length * label * 1.2 + label * 0.6)
      : lines.length * label * 1.3;
    lines.forEach((words, k) => {
      const base = wide
        ? y + deep / 2 + label * 0.35 + (k - (lines.length - 1) / 2) * label * 1.2
        : y + label * (0.95 + k * 1.25);
      marks.push(type(pen, 0, base, words, { size: label, bold }));
    });
    const base = wide ? y + deep / 2 + label * 0.35 : y + label * 0.95;
    marks.push(type(pen, column, base, text, { size: label, anchor: 'end', bold }));
    if (share !== undefined)
      marks.push(type(pen, width, base, share, { size: label, anchor: 'end', colour: pen.soft }));
    return deep;
  };

  for (const { name, value, text, share } of flow.parts) {
    const deep = texts(name, text, share, false);
    const top = wide ? y + (deep - bar) / 2 : y + deep + label * 0.1;
    const next = before + drawn(value);
    const [a, b] = [at(before), at(next)];
    const height = wide ? deep : deep + bar + label * 0.7;
    // In the narrow setting a connector would run through the figures.
    if (wide && before > 0 && drawn(value) > 0)
      marks.push(line(a, y - (deep - bar) / 2, a, top, stroke(pen.soft, hair)));
    const where = `data-mark="flow" data-from="${num(a)}" data-to="${num(b)}"`;
    marks.push(
      `<g ${where}>${line(left, top + bar / 2, right, top + bar / 2, stroke(pen.rule, hair / 2))}` +
        `${drawn(value) > 0 ? rect(a, top, Math.max(b - a, thin), bar, `fill="${pen.ink}"`) : ''}</g>`,
    );
    before = next;
    y += height;
  }
  if (flow.total !== undefined) {
    marks.push(line(0, y + label * 0.1, width, y + label * 0.1, stroke(pen.ink, thin)));
    y += label * 0.3;
    y += texts(flow.total.name, flow.total.text, undefined, true);
  }
  return svg(picture, pen, width, y + small * 0.3, marks);
}
