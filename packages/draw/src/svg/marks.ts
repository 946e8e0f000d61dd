import { escaped } from './escaped.ts';
import type { Pen } from './pen.ts';
import type { Picture } from './picture.ts';

/** A number as it stands in an attribute: two decimals, no exponent, no negative nought. */
export function num(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}

/** Attributes of a stroke. */
export function stroke(colour: string, width: number, dash = ''): string {
  return `fill="none" stroke="${colour}" stroke-width="${num(width)}"${dash === '' ? '' : ` stroke-dasharray="${dash}"`}`;
}

/** A straight line. */
export function line(x1: number, y1: number, x2: number, y2: number, attributes: string): string {
  return `<line x1="${num(x1)}" y1="${num(y1)}" x2="${num(x2)}" y2="${num(y2)}" ${attributes}/>`;
}

/** A rectangle. */
export function rect(x: number, y: number, width: number, height: number, attributes: string): string {
  return `<rect x="${num(x)}" y="${num(y)}" width="${num(Math.max(0, width))}" height="${num(Math.max(0, height))}" ${attributes}/>`;
}

/** A line through points. */
export function polyline(points: readonly (readonly [number, number])[], attributes: string): string {
  return `<polyline points="${points.map(([x, y]) => `${num(x)},${num(y)}`).join(' ')}" ${attributes}/>`;
}

/** A closed figure through points. */
export function polygon(points: readonly (readonly [number, number])[], attributes: string): string {
  return `<polygon points="${points.map(([x, y]) => `${num(x)},${num(y)}`).join(' ')}" ${attributes}/>`;
}

/** How a line of type is set. */
export interface Setting {
  readonly size: number;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
  readonly colour?: string;
  /** Cleared of lines that run behind it. */
  readonly halo?: boolean;
  /** Further attributes, such as a turn. */
  readonly more?: string;
}

/** A line of type, y being its base line. */
export function type(pen: Pen, x: number, y: number, text: string, setting: Setting): string {
  const { size, anchor = 'start', bold = false, colour = pen.ink, halo = false, more = '' } = setting;
  const attributes =
    `x="${num(x)}" y="${num(y)}" font-size="${num(size)}"` +
    (anchor === 'start' ? '' : ` text-anchor="${anchor}"`) +
    (bold ? ' font-weight="700"' : '') +
    (more === '' ? '' : ` ${more}`);
  const clear = halo
    ? ` stroke="${pen.paper}" stroke-width="${num(size * 0.3)}" stroke-linejoin="round" paint-order="stroke"`
    : '';
  return `<text ${attributes} fill="${colour}"${clear}>${escaped(text)}</text>`;
}

/** The whole picture around its marks. */
export function svg(
  picture: Picture,
  pen: Pen,
  width: number,
  height: number,
  marks: readonly string[],
  role: 'img' | 'group' = 'img',
): string {
  const unit = picture.profile === 'paper' ? 'pt' : '';
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${num(width)} ${num(height)}" ` +
    `width="${num(width)}${unit}" height="${num(height)}${unit}" role="${role}" font-family="${pen.font}">` +
    `<title>${escaped(picture.title)}</title><desc>${escaped(picture.desc)}</desc>` +
    `${marks.join('')}</svg>`
  );
}
