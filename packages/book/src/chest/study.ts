import {
  failed,
  fromResolution,
  type GaugeStudy,
  gaugeStudy,
  issue,
  lagOneCorrelation,
  type Outcome,
  ok,
  parseQuantity,
  type QuantityKind,
} from '@fettle/core';
import { standardUncertaintyOf } from '../assess/instrument.ts';
import type { Book, Written } from '../fold/book.ts';
import type { Body, BudgetLine } from '../ledger/bodies.ts';
import { amountOf, amountText } from './amount.ts';
import { workedBudget } from './budget-of.ts';
import { unknownInstrument } from './unknown-instrument.ts';

type Readings = Body<'repeat-study'>['readings'];

/** A study worked out, beside what was taken for granted before. */
export interface StudyWorked {
  readonly kind: QuantityKind;
  readonly unit: string;
  readonly study: GaugeStudy;
  readonly partNames: readonly string[];
  readonly occasionNames: readonly string[];
  /** Standard deviation of one reading on any occasion, never below what the step of the scale hides [SI]. */
  readonly own: number;
  readonly dof: number;
  /** What the step of the scale alone makes, by the finest figure said: r/√12 [SI]. */
  readonly stepU: number;
  /** The scatter is below what the step hides, and the step is taken. */
  readonly hidden: boolean;
  /** What the instrument has each reading's own part as, at this size [SI]; undefined where its U does not fit. */
  readonly assumed?: number;
  /** U of one reading before and after, at this size [SI]. */
  readonly before?: number;
  readonly after?: number;
  /** Readings that creep: each like the one before. */
  readonly drift?: number;
}

/** Beyond ± 2/√n the resemblance of neighbours is no accident. Common practice, no source. */
const CREEPS = 2;
/** Fewer readings say nothing about creeping. */
const ENOUGH = 8;

/** What repeated readings show. Every part must be read as often on every occasion. */
export function studyWorked(
  instruments: Book['instruments'],
  instrument: string,
  readings: Readings,
): Outcome<StudyWorked> {
  const amounts = readings.map(({ value }) => amountOf(value));
  const bad = amounts.findIndex((one) => one === undefined || one.kind !== amounts[0]?.kind);
  const [first] = amounts;
  if (!first || bad >= 0)
    return failed(
      issue(
        'study/unreadable',
        String(bad + 1),
        readings[bad]?.value ?? 'nothing',
        'quantities of one kind, each with its unit',
        `Reading ${bad + 1}, "${readings[bad]?.value ?? ''}", is no quantity like the others. Say it with its unit, such as 2.1228 in.`,
      ),
    );
  const partNames = distinct(readings.map(({ part }) => part ?? ''));
  const occasionNames = distinct(readings.map(({ occasion }) => occasion ?? ''));
  const cells = partNames.map((part) =>
    occasionNames.map((occasion) =>
      readings.flatMap((one, i) =>
        (one.part ?? '') === part && (one.occasion ?? '') === occasion ? [amounts[i]!.value] : [],
      ),
    ),
  );
  const study = gaugeStudy(cells);
  if (!study.ok) return study;
  const stepU = fromResolution(finestStep(readings, first.kind));
  const own = Math.max(study.value.gauge, stepU);
  const declared = instruments.get(instrument);
  const u = declared && standardUncertaintyOf(declared, first.kind, study.value.mean);
  const share = declared?.body.uncertainty.common_share ?? 0;
  const r1 = cells.length === 1 && cells[0]?.length === 1 ? lagOneCorrelation(cells[0][0]!) : undefined;
  const creeps = r1 !== undefined && readings.length >= ENOUGH && r1 > CREEPS / Math.sqrt(readings.length);
  return ok({
    kind: first.kind,
    unit: first.unit,
    study: study.value,
    partNames,
    occasionNames,
    own,
    dof: study.value.gaugeDof,
    stepU,
    hidden: study.value.gauge < stepU,
    ...(u !== undefined && {
      assumed: u * Math.sqrt(1 - share),
      before: 2 * u,
      after: 2 * Math.hypot(u * Math.sqrt(share), own),
    }),
    ...(creeps && { drift: r1 }),
  });
}

const distinct = (names: readonly string[]): string[] => [...new Set(names)];

/** One of the last figure said, of the reading said finest [SI]. */
function finestStep(readings: Readings, kind: QuantityKind): number {
  return Math.min(
    ...readings.flatMap(({ value }) => {
      const read = parseQuantity(value, kind);
      if (!read.ok) return [];
      const after = /\.(\d*)/.exec(read.value.digits)?.[1]?.length ?? 0;
      const one = parseQuantity(`${(10 ** -after).toFixed(after)} ${read.value.unit}`, kind);
      // Of temperatures the scale's own zero drops out of a difference.
      const zero = parseQuantity(`0 ${read.value.unit}`, kind);
      return one.ok && zero.ok ? [one.value.value - zero.value.value] : [];
    }),
  );
}

/** A study as the ledger takes it. */
export function admittedStudy(book: Book, said: Body<'repeat-study'>): Outcome<Body<'repeat-study'>> {
  if (!book.instruments.has(said.instrument))
    return failed(unknownInstrument(book, 'A study', said.instrument));
  const worked = studyWorked(book.instruments, said.instrument, said.readings);
  return worked.ok ? ok(said) : worked;
}

/**
 * The instrument declared anew with what the study showed in the place of each reading's own part. What all its
 * readings share stays: no number of repetitions shows that.
 */
export function adoptedStudy(book: Book, id: string): Outcome<Body<'instrument-declared'>> {
  const written = book.studies.find(({ entry }) => entry.id === id);
  const declared = written && book.instruments.get(written.body.instrument);
  if (!written || !declared)
    return failed(
      issue(
        'study/unknown',
        'study',
        id,
        'a repeat-study of a declared instrument',
        `There is no study ${id} here that stands. The studies are ${book.studies.map(({ entry }) => entry.id).join(', ') || 'none yet'}.`,
      ),
    );
  const worked = studyWorked(book.instruments, written.body.instrument, written.body.readings);
  if (!worked.ok) return worked;
  const { body } = declared;
  const U = amountOf(body.uncertainty.expanded);
  const fits = U && (U.kind === worked.value.kind || U.kind === 'ratio');
  if (!U || !fits || worked.value.assumed === undefined)
    return failed(
      issue(
        'study/other-kind',
        'study',
        worked.value.kind,
        `readings of what ${body.name} reads`,
        `${body.name} has U ${body.uncertainty.expanded}, and the study read ${worked.value.kind}: the one cannot take the place of a part of the other.`,
      ),
    );
  const budget = [
    ...commonLines(body, U.value / body.uncertainty.coverage),
    ownLine(worked.value, written, U),
  ];
  const made = workedBudget(budget, U.unit)!;
  return ok({
    ...body,
    uncertainty: {
      expanded: made.expanded,
      coverage: 2,
      common_share: Number(made.commonShare.toFixed(4)),
      own_dof: Number(worked.value.dof.toPrecision(6)),
    },
    trust: 'built',
    budget,
    study: id,
  });
}

function ownLine(
  { own, dof, kind, study, hidden }: StudyWorked,
  { body }: Written<'repeat-study'>,
  U: NonNullable<ReturnType<typeof amountOf>>,
): BudgetLine {
  const relative = U.kind === 'ratio';
  return {
    what: 'your own repeatability with it',
    amount: relative ? amountText(own / Math.abs(study.mean), 'ratio', '%') : amountText(own, kind, U.unit),
    shape: 'normal',
    divisor: 1,
    share: 'own',
    dof: Number(dof.toPrecision(6)),
    source: `${body.readings.length} readings of ${body.what}, type A, JCGM 100 4.2${hidden ? '; they scatter less than the step of the scale, so the step is taken' : ''}`,
  };
}

/** The budget's common lines; of a U that was stated, its common share in one line. */
function commonLines({ budget, uncertainty }: Body<'instrument-declared'>, u: number): BudgetLine[] {
  if (budget) return budget.filter(({ share }) => share === 'common');
  if (uncertainty.common_share === 0) return [];
  const U = amountOf(uncertainty.expanded)!;
  return [
    {
      what: 'what all its readings share, as stated',
      amount: amountText(2 * u * Math.sqrt(uncertainty.common_share), U.kind, U.unit),
      shape: 'normal',
      divisor: 2,
      share: 'common',
      source: `U ${uncertainty.expanded} stated, ${Math.round(100 * uncertainty.common_share)} % of its variance common`,
    },
  ];
}
