import type { Field, GaugePoint, PressureLimit, PressureLine } from './pressure-field.ts';
import { finite } from './svg/finite.ts';
import { line, stroke, type } from './svg/marks.ts';
import type { Pen } from './svg/pen.ts';
import { textWidth } from './svg/text-width.ts';

/** A limit as a gate at its speed: a bar, with hatching on the side where the pressure must not be. */
export function drawnLimit(pen: Pen, { x, y }: Field, { speed, lower, upper }: PressureLimit): string[] {
  const { heavy, hair, small } = pen.size;
  const half = small * 1.1;
  const at = x(speed);
  const bar = (pressure: number, way: number, side: string): string => {
    const level = y(pressure);
    const strokes = [-2, -1, 0, 1, 2].map((k) => {
      const from = at + (k * half * 2) / 5 + half / 5;
      return line(from, level, from - small * 0.35, level + way * small * 0.55, stroke(pen.ink, hair));
    });
    return `<g data-mark="limit" data-side="${side}">${line(at - half, level, at + half, level, stroke(pen.ink, heavy))}${strokes.join('')}</g>`;
  };
  return [
    lower !== undefined && upper !== undefined ? line(at, y(lower), at, y(upper), stroke(pen.ink, hair)) : '',
    lower === undefined ? '' : bar(lower, 1, 'lower'),
    upper === undefined ? '' : bar(upper, -1, 'upper'),
  ];
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The limits' words, each set beside its gate where it covers least of what is drawn. */
export function limitTexts(
  pen: Pen,
  field: Field,
  limits: readonly PressureLimit[],
  curves: readonly PressureLine[],
  gauge: readonly GaugePoint[],
): string[] {
  const { small } = pen.size;
  const taken: Box[] = gauge.map(({ speed, value, half }) => ({
    left: field.x(speed) - small * 0.5,
    right: field.x(speed) + small * 0.5,
    top: field.y(value + (finite(half) ?? 0)) - small * 0.5,
    bottom: field.y(value - (finite(half) ?? 0)) + small * 0.5,
  }));
  for (const { points } of curves) {
    points.slice(1).forEach((to, i) => {
      const from = points[i]!;
      for (let k = 0; k <= 8; k++) {
        const [x, y] = [
          field.x(from.speed + ((to.speed - from.speed) * k) / 8),
          field.y(from.value + ((to.value - from.value) * k) / 8),
        ];
        taken.push({ left: x - 1, right: x + 1, top: y - 1, bottom: y + 1 });
      }
    });
  }
  const gate = (limit: PressureLimit): Box => {
    const levels = [limit.lower, limit.upper].filter((level) => level !== undefined).map(field.y);
    const x = field.x(limit.speed);
    return {
      left: x - small * 1.3,
      right: x + small * 1.1,
      top: Math.min(...levels) - (limit.upper === undefined ? small * 0.2 : small * 0.6),
      bottom: Math.max(...levels) + (limit.lower === undefined ? small * 0.2 : small * 0.6),
    };
  };
  const drawn = limits.filter(({ lower, upper }) => lower !== undefined || upper !== undefined);
  taken.push(...drawn.map(gate));
  return drawn.map((limit) => {
    const { left, right, top, bottom } = gate(limit);
    const wide = textWidth(limit.text, small);
    const middle = (top + bottom) / 2 - small / 2;
    const corners = [
      [right + small * 0.3, middle],
      [left - small * 0.3 - wide, middle],
      [(left + right - wide) / 2, top - small * 1.15],
      [(left + right - wide) / 2, bottom + small * 0.15],
    ] as const;
    const boxes = corners.map(([x, y]) => ({ left: x, right: x + wide, top: y, bottom: y + small }));
    const cost = boxes.map((box) => covered(box, taken) + outside(box, field));
    const best = boxes[cost.indexOf(Math.min(...cost))]!;
    taken.push(best);
    return type(pen, best.left, best.bottom - small * 0.15, limit.text, { size: small, halo: true });
  });
}

function covered(box: Box, taken: readonly Box[]): number {
  return taken.filter(
    (other) =>
      other.left < box.right && other.right > box.left && other.top < box.bottom && other.bottom > box.top,
  ).length;
}

function outside(box: Box, field: Field): number {
  return box.left < field.left || box.right > field.right || box.top < field.top || box.bottom > field.bottom
    ? 1000
    : 0;
}
