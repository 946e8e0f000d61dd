import { failed, type Outcome, ok } from '../issue.ts';
import { metre } from '../units/si.ts';
import { type Thread, unifiedThread } from './thread.ts';
import {
  CONSTANT_PITCHES,
  type GradedSeries,
  gradedSeriesOf,
  pitchesOf,
  UNIFIED_SIZES,
  type UnifiedSize,
} from './unified-series.ts';

const SIZE = String.raw`(?:(?:#|no\.?\s*)\d+|\d+[\s-]+\d+\/\d+|\d+\/\d+|\d*\.\d+|\d+)`;
const SERIES = '(?:UN(?:R?(?:C|F|EF|S))?|UNR|N(?:C|F|EF|S))';
const WHOLE = new RegExp(
  String.raw`^(${SIZE})\s*(?:"|”|in\.?|inch)?(?:\s*[-–x×*\s]\s*(\d+(?:\.\d+|\s*1\/2)?)\s*(?:t\.?p\.?i\.?)?)?` +
    String.raw`\s*[-\s]?\s*(${SERIES})?(?:\s*[-\s]\s*[123][AB])?\s*$`,
  'i',
);
const WANTED = 'such as 5/16-18 UNC, 1/4-28 or #10-32';

interface Read {
  readonly text: string;
  readonly at: string;
  readonly sizes: readonly UnifiedSize[];
  readonly perInch?: number;
  readonly series?: GradedSeries | 'UN' | 'UNS';
}

/** A Unified thread as the trade writes it; see `threadFrom`, which calls this for whatever is not metric. */
export function unifiedFrom(text: string, at: string): Outcome<Thread> {
  const match = WHOLE.exec(text);
  const sizes = match ? sizesNamed(match[1]!) : [];
  if (!match || (match[2] === undefined && match[3] === undefined)) {
    return failed({
      code: 'thread/unreadable',
      at,
      got: text,
      wanted: `${WANTED}, or M8x1.25`,
      message: `Write size and threads per inch, ${WANTED}; or M8x1.25 for a metric thread.`,
    });
  }
  const series = seriesNamed(match[3]);
  const perInch = match[2] === undefined ? undefined : Number(match[2].replace(/\s*1\/2/, '.5'));
  const read = {
    text,
    at,
    sizes,
    ...(perInch === undefined ? {} : { perInch }),
    ...(series === undefined ? {} : { series }),
  };
  return threadOf(read);
}

/** A bare whole number may be an inch size or a number size; the pitch tells which. */
function sizesNamed(written: string): UnifiedSize[] {
  const named = /^(?:#|no\.?\s*)(\d+)$/i.exec(written);
  if (named) return UNIFIED_SIZES.filter((size) => size.name === `#${named[1]}`);
  const mixed = /^(\d+)[\s-]+(\d+)\/(\d+)$/.exec(written);
  const fraction = /^(\d+)\/(\d+)$/.exec(written);
  const inches = mixed
    ? Number(mixed[1]) + Number(mixed[2]) / Number(mixed[3])
    : fraction
      ? Number(fraction[1]) / Number(fraction[2])
      : Number(written);
  const number = /^\d+$/.test(written) ? `#${written}` : undefined;
  return UNIFIED_SIZES.filter((size) => Math.abs(size.inches - inches) < 0.0006 || size.name === number);
}

/** American National NC and NF and the rounded-root R letters have the basic sizes of Unified. */
function seriesNamed(written: string | undefined): Read['series'] {
  if (written === undefined) return undefined;
  const letters = written.toUpperCase().replace(/^UNR/, 'UN').replace(/^N/, 'UN');
  return letters as Read['series'];
}

function threadOf({ text, at, sizes, perInch, series }: Read): Outcome<Thread> {
  if (sizes.length === 0) {
    return failed({
      code: 'thread/unknown-size',
      at,
      got: text,
      wanted: 'a Unified size from #0 to 2 in',
      message: 'There is no such Unified size here. Measure the outside diameter and the pitch again.',
    });
  }
  const made = (size: UnifiedSize, count: number, letters: string) =>
    ok(unifiedThread(metre(size.inches * 0.0254), count, letters, size.name));
  const offered = sizes.map((size) => `${size.name}: ${pitchesOf(size)}`).join('; ');
  if (series === 'UN' || series === 'UNS') {
    const size = sizes.find((candidate) => !candidate.name.startsWith('#')) ?? sizes[0]!;
    const fits = perInch !== undefined && (series === 'UNS' || CONSTANT_PITCHES.includes(perInch));
    if (fits && perInch >= 4 && perInch <= 80) return made(size, perInch, series);
    return mismatch(text, at, `threads per inch of the ${series} series with ${size.name}`, offered);
  }
  if (series !== undefined) {
    const size = sizes.find((candidate) => (perInch ?? candidate[series]) === candidate[series]);
    const count = size?.[series];
    if (size && count !== undefined) return made(size, count, series);
    return mismatch(text, at, `the ${series} pitch of that size`, offered);
  }
  for (const size of sizes) {
    const found = gradedSeriesOf(size, perInch!);
    if (found) return made(size, perInch!, found);
  }
  return failed({
    code: 'thread/unknown-form',
    at,
    got: text,
    wanted: `a Unified pitch (${offered}), or the letters UN or UNS after it`,
    message:
      `No Unified series has ${perInch} threads per inch at this size (${offered}). It may be a Whitworth, BSF or ` +
      'cycle thread, which are not known here and are never treated as Unified. ' +
      'Check with a pitch gauge of both angles; write UNS after it only if it is sure to be a 60° special.',
  });
}

function mismatch(text: string, at: string, wanted: string, offered: string): Outcome<Thread> {
  return failed({
    code: 'thread/series-pitch',
    at,
    got: text,
    wanted: `${wanted} (${offered})`,
    message: `Series and pitch do not belong together: ${offered}. Count the threads and correct one of the two.`,
  });
}
