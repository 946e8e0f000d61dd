import type { Characteristic } from '@fettle/book';
import { unitsOfKind } from '@fettle/core';
import { setSetting, settings } from './desk.ts';
import { job } from './job.ts';

/** Lengths as the sheet prints them, or all in one unit: a choice of this browser for this job. */
export const LENGTH_UNITS = ['sheet', 'mm', 'in', 'thou'] as const;
export type LengthUnit = (typeof LENGTH_UNITS)[number];

const keyFor = (): string => `units ${job.value ?? ''}`;

export const lengthUnit = (): LengthUnit => {
  const said = settings.value[keyFor()];
  return LENGTH_UNITS.find((unit) => unit === said) ?? 'sheet';
};

export const setLengthUnit = (unit: LengthUnit): Promise<void> => setSetting(keyFor(), unit);

/** The unit in which a characteristic is typed and shown; undefined for what has none. */
export function unitOf({ kind, unit }: Characteristic): string | undefined {
  if (kind === 'seen') return undefined;
  const chosen = lengthUnit();
  if (kind === 'length' && chosen !== 'sheet') return chosen;
  if (unit !== undefined) return unit;
  if (kind === 'ratio') return undefined;
  return unitsOfKind(kind)[0]?.name;
}
