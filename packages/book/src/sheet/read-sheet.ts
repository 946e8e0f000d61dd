import { CATALOGUE, failed, type Outcome, ok, unitNamed } from '@fettle/core';
import { issuesOf } from '../issues-of-zod.ts';
import { axisFaults, characteristicPlaceFaults, positionFaults, spotFaults } from './axis-faults.ts';
import { coverFaults, documentFaults, fastenerFaults } from './cover-faults.ts';
import { crankFaults } from './crank-faults.ts';
import { cycleFaults } from './cycle-faults.ts';
import { Faults } from './fault.ts';
import { limitFaults } from './limit-faults.ts';
import { materialFaults } from './material-faults.ts';
import { oilFaults } from './oil-faults.ts';
import { positionsOf } from './places.ts';
import { relationFaults } from './relation-faults.ts';
import { type Characteristic, type SpecSheet, sheetSchema } from './sheet.ts';

/** Deeper than any sheet; a file nested deeper is refused before it can exhaust the call stack. */
const DEEPEST = 64;

function isTooDeep(value: unknown): boolean {
  const open: { value: unknown; depth: number }[] = [{ value, depth: 0 }];
  for (let here = open.pop(); here; here = open.pop()) {
    if (typeof here.value !== 'object' || here.value === null) continue;
    const depth = here.depth + 1;
    if (depth > DEEPEST) return true;
    for (const inner of Object.values(here.value)) open.push({ value: inner, depth });
  }
  return false;
}

/** Units by their canonical names, so that every reader of the sheet can look them up. */
const named = (c: Characteristic): Characteristic =>
  c.unit === undefined || c.kind === 'seen' ? c : { ...c, unit: unitNamed(c.unit, c.kind)?.name ?? c.unit };

/**
 * A spec sheet as it came from outside, held to its schema and to itself: ids, axes, relations, limits, sources.
 *
 * @returns the sheet with its defaults filled in and its units under their canonical names, which reading again
 *   leaves as it is; or everything that is wrong with it, each with a JSON pointer
 */
export function readSheet(value: unknown): Outcome<SpecSheet> {
  if (isTooDeep(value))
    return failed({
      code: 'sheet/too-deep',
      at: '',
      got: `more than ${DEEPEST} levels`,
      wanted: 'a spec sheet',
      message: `The file is nested more than ${DEEPEST} levels deep, which no spec sheet is. Check that it is the right file.`,
    });
  const shape = sheetSchema.safeParse(value);
  if (!shape.success) return failed(...issuesOf(shape.error, value, 'sheet/malformed'));
  const sheet = shape.data;
  const faults = sheetFaults(sheet);
  if (faults.issues.length > 0) return failed(...faults.issues);
  return ok({ ...sheet, characteristics: sheet.characteristics.map(named) });
}

function sheetFaults(sheet: SpecSheet): Faults {
  const faults = new Faults();
  const byId = new Map(sheet.characteristics.map((c) => [c.id, c]));
  faults.unique(
    sheet.characteristics.map(({ id }) => id),
    (i) => ['characteristics', i, 'id'],
    'characteristic',
  );
  axisFaults(sheet, faults);
  spotFaults(sheet, faults);
  positionFaults(sheet, faults);
  // With places beyond counting, what rests on them cannot be looked at.
  if (faults.issues.some(({ code }) => code === 'sheet/too-many-places')) return faults;
  const positions = new Set(positionsOf(sheet).map(({ id }) => id));
  for (const [i, c] of sheet.characteristics.entries()) {
    characteristicPlaceFaults(sheet, c, i, positions, faults);
    limitFaults(c, i, faults);
    relationFaults(sheet, c, i, byId, CATALOGUE, faults);
  }
  materialFaults(sheet, faults);
  cycleFaults(sheet.characteristics, byId, faults);
  fastenerFaults(sheet, faults);
  coverFaults(sheet, faults);
  documentFaults(sheet, faults);
  oilFaults(sheet, byId, faults);
  crankFaults(sheet, byId, faults);
  return faults;
}
