import { inUnit, printQuantity, type QuantityKind } from '@fettle/core';
import { amountText } from '../chest/amount.ts';
import { budgetAgrees, type WorkedBudget } from '../chest/budget-of.ts';
import { type CheckState, checkWorked } from '../chest/check.ts';
import type { StudyWorked } from '../chest/study.ts';
import type { Book, Written } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';

// What page, paper and terminal say of an instrument.

const percent = (share: number): string => `${Math.round(100 * share)} %`;
const many = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;

/** Who stands by an instrument's U. */
export const trustWords: Readonly<Record<Body<'instrument-declared'>['trust'], string>> = {
  stated: 'stated by its owner',
  default: 'what its type usually has; not stated by its owner',
  built: 'built from what its owner said of it',
};

/** What is said beside stacks of leaves. */
export const STACK_CAUTION =
  'What all leaves of the set have in common adds straight, each leaf’s own error by squares, and a film of oil or a burr between two ±2.5 μm (assumed: common practice, no source): the fewer, the better. Wipe them dry.';

/** One line of a budget. */
export interface BudgetRow {
  readonly what: string;
  /** `± 5 µm`. */
  readonly amount: string;
  /** `rectangular, ÷ 1.73`. */
  readonly how: string;
  readonly u: string;
  /** Share of the variance, 0 to 1. */
  readonly share: number;
  readonly common: boolean;
  /** `all its readings`, `each reading’s own`, `as in Outside micrometers`. */
  readonly whose: string;
  readonly source: string;
}

/** A budget line by line, in the order it was written. */
export function budgetRows(book: Book, { lines, terms, u, kind, unit }: WorkedBudget): BudgetRow[] {
  return lines.map(({ what, amount, shape, divisor, share, of, dof, source }, i) => {
    const own = terms[i] ?? 0;
    return {
      what,
      amount: divisor === 1 ? amount : `± ${amount}`,
      how: `${shape}${divisor === 1 ? '' : `, ÷ ${Number(divisor.toFixed(2))}`}${dof === undefined ? '' : `, ${Number(dof.toPrecision(3))} degrees of freedom`}`,
      u: amountText(own, kind, unit),
      share: u === 0 ? 0 : (own / u) ** 2,
      common: share === 'common',
      whose:
        of !== undefined
          ? `as in ${book.instruments.get(of)?.body.name ?? of}`
          : share === 'common'
            ? 'all its readings'
            : 'each reading’s own',
      source,
    };
  });
}

/** What a budget comes to. */
export function budgetSum(body: Body<'instrument-declared'>, worked: WorkedBudget): string {
  const { kind, unit, u, commonShare } = worked;
  const agrees = budgetAgrees(body, worked);
  return (
    `Together u = ${amountText(u, kind, unit)}, so U = ${worked.expanded} (k = 2, about 95 %); ` +
    `${percent(commonShare)} of the variance is common to all its readings and cancels in a difference.` +
    (agrees ? '' : ` The U declared is ${body.uncertainty.expanded}, and that is what judges.`)
  );
}

/** `against 2.0000 in it read 2.0005 in: 0.0005 in off, 0.0002 in allowed: failed`. */
export function checkWords(book: Book, { body }: Written<'instrument-checked'>): string {
  const worked = checkWorked(book, body);
  const verdict = body.good ? 'good' : 'failed';
  const figures = worked ? `: ${worked.off} off, ${worked.allowed} allowed` : '';
  const odd =
    worked && worked.within !== body.good
      ? body.good
        ? ' (kept as its owner said it then, though off by more)'
        : ' (failed by its owner’s word, whatever the figures)'
      : '';
  return `${body.when === undefined ? '' : `${body.when} the readings, `}against ${body.against} it read ${body.read}${figures}: ${verdict}${odd}`;
}

/** How an instrument stands by its checks, in a sentence. Overdue is only a caution. */
export function checkStateWords(book: Book, state: CheckState): string {
  const { last, since, again, corrected } = state;
  if (!last)
    return since > 0
      ? `Not checked in this job, with ${many(since, 'reading')} resting on it.`
      : 'Not checked in this job.';
  const now = `Last check, ${checkWords(book, last)}.`;
  const doubt = again > 0 ? ` ${many(again, 'reading')} to be taken again.` : '';
  const mended = corrected > 0 ? ` ${many(corrected, 'reading')} corrected by what was found.` : '';
  const due =
    since > 0 && last.body.good
      ? ` ${many(since, 'reading')} since: check it again before they are trusted.`
      : '';
  return `${now}${doubt}${mended}${due}`;
}

const SOURCE_WORDS = {
  parts: 'parts',
  occasions: 'occasions or people',
  interaction: 'parts and occasions together',
  repeats: 'repeating it',
} as const;

/** The table of a study: where its spread comes from. */
export interface StudyRow {
  readonly source: string;
  readonly squares: string;
  readonly dof: string;
  readonly meanSquare: string;
  readonly ratio: string;
  readonly sd: string;
}

const figure = (x: number): string => String(Number(x.toPrecision(4)));
/** A square in the square of the unit it is told in. */
const squared = (x: number, unit: string): string => figure(x / (fromOne(unit) * fromOne(unit)));
/** SI of one of the unit, as a difference. */
const fromOne = (unit: string): number =>
  unit === 'K' || unit === '%' ? 1 : 1 / (inUnit(1, unit) - inUnit(0, unit));

export function studyRows({ study, unit, kind }: StudyWorked): StudyRow[] {
  return study.lines.map(({ source, squares, dof, meanSquare, ratio, chance }) => ({
    source: source === 'repeats' && study.pooled ? 'repeating it, with both together' : SOURCE_WORDS[source],
    squares: squared(squares, unit),
    dof: String(dof),
    meanSquare: squared(meanSquare, unit),
    ratio:
      ratio === undefined
        ? ''
        : `${Number.isFinite(ratio) ? figure(ratio) : 'beyond all'}${chance === undefined ? '' : `, by chance ${chance < 0.001 ? 'under 0.1 %' : percent2(chance)}`}`,
    sd: amountText(Math.sqrt(study.variance[source]), kind, unit),
  }));
}

const percent2 = (share: number): string => `${Number((100 * share).toPrecision(2))} %`;

/** What a study says, plainly. */
export function studySentences(name: string, worked: StudyWorked): string[] {
  const { study, kind, unit, own, assumed, before, after, hidden, stepU, dof, drift } = worked;
  const said = (x: number): string => amountText(x, kind, unit);
  const of = `${study.parts * study.occasions * study.repeats} readings`;
  const shape =
    study.parts === 1 && study.occasions === 1
      ? `${of} of one thing: mean ${mean(study.mean, kind, unit)}, s = ${said(study.repeatability)}, of their mean ${said(study.repeatability / Math.sqrt(study.repeats))}, ${study.dof} degrees of freedom.`
      : `${of}: ${many(study.parts, 'part')}, ${many(study.occasions, 'occasion')}, ${study.repeats} each time.`;
  const both =
    study.reproducibility > 0
      ? ` (${said(study.repeatability)} repeating it, ${said(study.reproducibility)} from one occasion to another)`
      : '';
  return [
    shape,
    `Your own repeatability with ${name} is ${said(own)}${both}: one standard deviation, ${Number(dof.toPrecision(3))} degrees of freedom.`,
    ...(hidden
      ? [`The readings scatter less than the step of the scale hides, so that is taken: ${said(stepU)}.`]
      : []),
    ...(assumed === undefined
      ? ['Its U is of another kind, so there is nothing to compare it with.']
      : [
          `Assumed so far is ${said(assumed)}: ${own > 1.5 * assumed ? 'too kind' : own < assumed / 1.5 ? 'wider than it is' : 'about right'}. Adopted, U of one reading goes from ${said(before ?? 0)} to ${said(after ?? 0)}.`,
        ]),
    ...(study.pooled
      ? ['Parts and occasions together made no difference of their own, and are taken with the repeats.']
      : []),
    ...study.setToZero.map(
      (source) => `For ${SOURCE_WORDS[source]} the sum came out below nothing, and is taken as nothing.`,
    ),
    ...(drift === undefined
      ? []
      : [
          `Each reading is much like the one before (${drift.toFixed(2)}): they creep, and s is then too small. Warmth, a slipping lock or a worn-in touch does that.`,
        ]),
    ...(study.dof < 5 ? ['Few readings: s itself is known only roughly. Ten say more.'] : []),
  ];
}

function mean(value: number, kind: QuantityKind, unit: string): string {
  return kind === 'temperature' || kind === 'ratio'
    ? figure(value)
    : printQuantity(value, unit, unit === 'in' ? 5 : undefined);
}
