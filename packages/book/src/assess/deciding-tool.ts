import { parseQuantity } from '@fettle/core';
import { builtInstrument } from '../chest/built.ts';
import { INSTRUMENT_TYPES } from '../chest/instrument-types.ts';
import type { Written } from '../fold/book.ts';
import type { Place } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import type { Chance } from './next-move-chance.ts';
import type { Reckoning } from './reckoning.ts';

/** An instrument with which reading again could lead to a verdict. */
export interface Deciding {
  /** Absent for one to borrow. */
  readonly instrument?: string;
  readonly name: string;
  readonly type: string;
  readonly owned: boolean;
  /** U of one reading of it, half-width at about 95 % [SI]. */
  readonly expanded: number;
  readonly characteristic: Characteristic;
  /** Where it would be read again. */
  readonly places: readonly Place[];
  /** Only leaves were tried: nothing is read again, a number is read for the first time. */
  readonly first?: true;
  /** The sizes it follows from, where these are to be read instead, each with its tool. */
  readonly sizes?: readonly SizeToRead[];
  readonly minutes: number;
  readonly chance: Chance;
}

interface SizeToRead {
  readonly characteristic: Characteristic;
  readonly place: Place;
  readonly name: string;
  readonly type: string;
  readonly owned: boolean;
}

/** From here on a way is good enough to be taken for being quick. */
const LIKELY = 0.5;
/** Below this nobody would get an instrument out for it. */
export const LEAST = 0.02;

/** One as it is usually had, its uncertainty built from what is usual for the type. */
export function borrowedOf(
  reckoning: Reckoning,
  type: string,
  characteristic: Characteristic,
  value: number,
): Written<'instrument-declared'> | undefined {
  const known = INSTRUMENT_TYPES.get(type);
  if (known?.reads !== characteristic.kind) return undefined;
  const usual = { type, settings: {}, system: isInch(characteristic) ? 'inch' : 'metric' } as const;
  const range = known.settings.find(({ key }) => key === 'range');
  const read = range && parseQuantity(range.usual[0], 'length');
  const reaches = !read?.ok || value <= read.value.value;
  const settings = reaches ? {} : { range: `${Math.ceil(value * 1000)} mm` };
  const built = builtInstrument(reckoning.book.instruments, { ...usual, settings });
  if (!built.ok) return undefined;
  const entry = [...reckoning.book.instruments.values()][0]?.entry;
  const { uncertainty, trust } = built.value;
  return entry && { entry, body: { instrument: `to borrow: ${type}`, name: type, type, uncertainty, trust } };
}

const isInch = ({ unit }: Characteristic): boolean => unit === 'in' || unit === 'thou';

/** Likely before unlikely; of the likely what is owned, then what is quick; of the unlikely the likeliest. */
export function better(a: Deciding, b: Deciding): number {
  const [la, lb] = [a.chance.decided >= LIKELY, b.chance.decided >= LIKELY];
  if (la !== lb) return la ? -1 : 1;
  if (!la) return b.chance.decided - a.chance.decided || a.minutes - b.minutes;
  return Number(b.owned) - Number(a.owned) || a.minutes - b.minutes || b.chance.decided - a.chance.decided;
}
