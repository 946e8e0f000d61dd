import { failed, issue, type Outcome, ok } from '@fettle/core';
import { standardUncertaintyOf } from '../assess/instrument.ts';
import type { Book, Written } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';
import { amountOf, amountText } from './amount.ts';
import { unknownInstrument } from './unknown-instrument.ts';

/** An instrument held against something known, as it is said. */
export interface CheckSaid {
  readonly instrument: string;
  readonly against?: string | undefined;
  readonly read?: string | undefined;
  /** How far it may be off; left out, its own U. */
  readonly limit?: string | undefined;
  /** Said to have failed whatever the figures say: it drags, it jumps. Nobody can say the other way round. */
  readonly failed?: boolean | undefined;
  readonly when?: 'before' | 'after' | undefined;
  readonly note?: string | undefined;
}

/** How far off it read, and how far it may be: in the unit it was read in. */
export interface CheckWorked {
  /** Read less what it was held against. */
  readonly off: string;
  readonly allowed: string;
  readonly within: boolean;
}

/** The arithmetic of a check; undefined where its figures make none. */
export function checkWorked(
  book: Book,
  {
    instrument,
    against,
    read,
    limit,
  }: { instrument: string; against: string; read: string; limit?: string | undefined },
): CheckWorked | undefined {
  const [held, said] = [amountOf(against), amountOf(read)];
  const declared = book.instruments.get(instrument);
  if (!held || !said || held.kind !== said.kind || !declared) return undefined;
  const stated = limit === undefined ? undefined : amountOf(limit);
  const { coverage } = declared.body.uncertainty;
  const u = standardUncertaintyOf(declared, said.kind, held.value);
  const allowed =
    stated?.kind === 'ratio'
      ? Math.abs(held.value) * stated.value
      : (stated?.value ?? (u === undefined ? undefined : u * coverage));
  if (allowed === undefined || (stated && stated.kind !== 'ratio' && stated.kind !== said.kind))
    return undefined;
  const off = said.value - held.value;
  return {
    off: amountText(off, said.kind, said.unit),
    allowed: amountText(allowed, said.kind, said.unit),
    // Figures that say the limit itself are within it, however they were turned into SI.
    within: Math.abs(off) <= allowed * (1 + 1e-6) + 1e-15,
  };
}

/** A check as the ledger takes it: good or failed by its own figures. */
export function admittedCheck(book: Book, asSaid: CheckSaid): Outcome<Body<'instrument-checked'>> {
  const declared = book.instruments.get(asSaid.instrument);
  if (!declared) return failed(unknownInstrument(book, 'A check', asSaid.instrument));
  const said = zerosInFigures(asSaid, declared.body.uncertainty.expanded);
  const texts = [
    ['against', said.against],
    ['read', said.read],
    ...(said.limit === undefined ? [] : [['limit', said.limit] as const]),
  ] as const;
  const issues = texts.flatMap(([at, text]) => {
    const got = text === undefined || text.trim() === '' ? 'nothing' : text;
    return amountOf(got)
      ? []
      : [
          issue(
            'unit/unknown',
            at,
            got,
            'a quantity with its unit',
            `${CALLED[at]}: ${got === 'nothing' ? 'nothing is said' : `"${got}" is no quantity`}. Say it with its unit, such as 2.0000 in.`,
          ),
        ];
  });
  if (issues.length > 0) return failed(...issues);
  const [against, read] = [said.against!.trim(), said.read!.trim()];
  if (amountOf(against)?.kind !== amountOf(read)?.kind)
    return failed(
      issue(
        'unit/wrong-kind',
        'read',
        read,
        `a quantity like ${against}`,
        `It was held against ${against} and is said to have read ${read}: the two are not of one kind. Correct one of them.`,
      ),
    );
  const worked = checkWorked(book, { instrument: said.instrument, against, read, limit: said.limit });
  const { expanded } = declared.body.uncertainty;
  const nothing = expanded.trim().endsWith('%') && amountOf(against)?.value === 0 && said.limit === undefined;
  if (!worked || nothing)
    return failed(
      issue(
        'check/no-limit',
        'limit',
        said.limit ?? `U ${expanded}`,
        `how far ${declared.body.name} may be off, such as 0.0002 in`,
        nothing
          ? `At zero a share of the reading is nothing. Say how far ${declared.body.name} may be off there.`
          : `${declared.body.name} has U ${expanded}, which says nothing of ${read}. Say how far it may be off, in the unit it was read in.`,
      ),
    );
  return ok({
    instrument: said.instrument,
    against,
    read,
    good: worked.within && said.failed !== true,
    // Kept with the check: a U that is built anew later does not judge it again.
    limit: said.limit?.trim() ?? worked.allowed,
    ...(said.when !== undefined && { when: said.when }),
    ...(said.note !== undefined && { note: said.note }),
  });
}

const ZERO = /^\s*(zero|nought|0)\s*$/i;

/** A gauge closed on itself is held against "zero": nothing needs a unit to be nothing, and the other figure has one. */
function zerosInFigures(said: CheckSaid, U: string): CheckSaid {
  const unit = [said.read, said.against, U]
    .flatMap((text) => (text === undefined || ZERO.test(text) ? [] : amountOf(text)?.unit))
    .find((one) => one !== undefined && one !== '%');
  const figure = (text: string | undefined): string | undefined =>
    text !== undefined && unit !== undefined && ZERO.test(text) ? `0 ${unit}` : text;
  return { ...said, against: figure(said.against), read: figure(said.read) };
}

const CALLED: Readonly<Record<string, string>> = {
  against: 'Held against',
  read: 'It read',
  limit: 'May be off by',
};

/** How an instrument stands by its checks. */
export interface CheckState {
  readonly last?: Written<'instrument-checked'>;
  readonly checks: readonly Written<'instrument-checked'>[];
  /** Taken with it since its last check, or ever. */
  readonly since: number;
  /** Readings that are to be taken again because of it. */
  readonly again: number;
  /** Readings it reopened that count again, with what was found added to them. */
  readonly corrected: number;
}

export function checkState(book: Book, instrument: string): CheckState {
  const checks = book.instrumentChecks.filter(({ body }) => body.instrument === instrument);
  const last = checks.at(-1);
  const order = new Map(book.entries.map(({ id }, i) => [id, i]));
  const after = last ? (order.get(last.entry.id) ?? -1) : -1;
  const mine = new Set(checks.map(({ entry }) => entry.id));
  const reopened = book.readings.filter(({ entry }) => mine.has(book.reopened.get(entry.id) ?? ''));
  const taken = [
    ...book.readings.filter(({ standing }) => standing !== 'struck'),
    ...book.gaugeReadings,
    ...book.torquePasses,
  ];
  return {
    ...(last && { last }),
    checks,
    since: taken.filter(
      ({ entry, body }) => body.instrument === instrument && (order.get(entry.id) ?? -1) > after,
    ).length,
    again: reopened.filter(({ standing }) => standing === 'to-be-taken-again').length,
    corrected: reopened.filter(({ standing, correction }) => standing === 'counts' && correction).length,
  };
}

/** Readings reopened by a failed check, corrected by what was found. */
export interface CorrectionSaid {
  readonly check: string;
  readonly add?: string | undefined;
  readonly doubt?: string | undefined;
  readonly why?: string | undefined;
}

export function admittedCorrection(book: Book, said: CorrectionSaid): Outcome<Body<'readings-corrected'>> {
  const check = book.instrumentChecks.find(({ entry }) => entry.id === said.check);
  const reopened = [...book.reopened.values()].includes(said.check);
  if (!check || !reopened)
    return failed(
      issue(
        'correction/nothing-reopened',
        'check',
        said.check,
        'a failed check that reopened readings',
        check
          ? `The check ${said.check} reopened nothing, so there is nothing to correct.`
          : `There is no check ${said.check} here. Name one that failed, or the instrument it was of.`,
      ),
    );
  const kind = amountOf(check.body.read)?.kind;
  const [add, doubt] = [amountOf(said.add ?? ''), amountOf(said.doubt ?? '')];
  const issues = [
    ['add', add, said.add, 'what to add to the readings, such as "-0.0005 in"'] as const,
    ['doubt', doubt, said.doubt, 'how well that is known, ± at about 95 %, such as "0.0002 in"'] as const,
  ].flatMap(([at, amount, text, wanted]) =>
    amount?.kind === kind && (at === 'add' || (amount?.value ?? 0) > 0)
      ? []
      : [issue('correction/unreadable', at, text ?? 'nothing', wanted, `Say ${wanted}.`)],
  );
  if ((said.why ?? '').trim() === '')
    issues.push(
      issue(
        'correction/no-reason',
        'why',
        'nothing',
        'why all of them are off by just that',
        'Say why: a correction holds only where the error was there for every one of these readings and was the same.',
      ),
    );
  if (issues.length > 0) return failed(...issues);
  return ok({ check: said.check, add: said.add!.trim(), doubt: said.doubt!.trim(), why: said.why!.trim() });
}
