import { parseQuantity, standardUncertainty, type Uncertain } from '@fettle/core';
import type { Assessed } from '../assess/assessment.ts';
import { takesTheSame } from '../assess/finer-input.ts';
import { standardUncertaintyOf } from '../assess/instrument.ts';
import type { NextMove } from '../assess/next-move.ts';
import type { Book, ReadingOnRecord } from '../fold/book.ts';
import type { RepairPlan } from './plan.ts';
import { requirementBits } from './plan-problem.ts';
import type { Planning, PlanSet } from './planning.ts';
import { requirementOf } from './requirements.ts';
import { cheapestSet, completions, type Found } from './search.ts';

/** Where most of a pressure's doubt comes from. */
export interface MostDoubt {
  /** Of the variance. */
  readonly share: number;
  readonly from:
    | {
        readonly kind: 'readings';
        readonly instrument: string;
        readonly instrumentName: string;
        /** What was read with it. */
        readonly of: readonly string[];
        /** One owned that takes the same measure finer. */
        readonly finer?: string;
      }
    | { readonly kind: 'offer'; readonly offer: string; readonly of: string };
}

/** A verdict or a band that decides how much is to be spent: measuring may be cheaper than buying. */
export type MeasuringMove =
  | {
      readonly about: 'verdict';
      readonly judgement: Assessed;
      /** Probability that it is within its limits, as far as is known. */
      readonly chanceIn: number;
      /** More than the plan, if it turns out to be out. */
      readonly extra: number;
      readonly ifOut: PlanSet;
      /** What measuring saves on average over buying for safety. */
      readonly saving: number;
      readonly next?: NextMove;
    }
  | {
      readonly about: 'band';
      /** Enough if things are as they now look. */
      readonly cheaper: PlanSet;
      /** Less than the plan; absent where no plan is sure enough. */
      readonly less?: number;
      /** At most, on average: what perfect knowledge would save. */
      readonly saving?: number;
      readonly condition: number;
      readonly most?: MostDoubt;
    };

/** What measuring better could save, the largest first. Needs a plan, or says what keeps one from being sure. */
export function measuringMoves(
  planning: Planning,
  plan: RepairPlan,
  judgements: readonly Assessed[],
): MeasuringMove[] {
  const moves = [...verdictMoves(planning, plan, judgements), ...bandMoves(planning, plan)];
  return moves.sort((a, b) => (b.saving ?? 0) - (a.saving ?? 0));
}

function verdictMoves(
  planning: Planning,
  plan: RepairPlan,
  judgements: readonly Assessed[],
): MeasuringMove[] {
  const { problem, bits, asSet, offers, confidence } = planning;
  const { best } = plan;
  if (!best) return [];
  const taken = best.offers.reduce((mask, id) => mask | (1 << bits.bit.get(id)!), 0);
  return judgements.flatMap((judgement): MeasuringMove[] => {
    if (judgement.status !== 'cannot-tell') return [];
    const requirement = requirementOf(judgement, offers);
    if (!requirement) return [];
    const more = requirementBits([requirement], bits);
    // What the plan settles anyway needs no measuring.
    if (more.every((mask) => mask & taken)) return [];
    const found = cheapestSet({ ...problem, requirements: [...problem.requirements, ...more] }, confidence);
    if (!found || found.price <= best.price) return [];
    const extra = found.price - best.price;
    const chanceIn = judgement.governing && judgement.verdicts[judgement.governing]?.probabilityIn;
    return [
      {
        about: 'verdict',
        judgement,
        chanceIn: chanceIn ?? 0.5,
        extra,
        ifOut: asSet(found.taken),
        saving: extra * (chanceIn ?? 0.5),
        ...(judgement.next && { next: judgement.next }),
      },
    ];
  });
}

/** A set that would do at the values as they look, and is only not sure enough. */
function bandMoves(planning: Planning, plan: RepairPlan): MeasuringMove[] {
  const { problem, asSet, chances, book, conditions } = planning;
  if (!chances) return [];
  const within = (found: Found): boolean =>
    chances.pressures(found.taken & problem.oil).every(({ value }, i) => {
      const { lower, upper } = conditions[i]!.wanted;
      return (lower === undefined || value >= lower) && (upper === undefined || value <= upper);
    });
  for (const { taken, price } of completions(problem)) {
    if (plan.best && price >= plan.best.price) return [];
    if (!within({ taken, price, chance: 0 })) continue;
    const cheaper = asSet(taken);
    const weakest = cheaper.chances.indexOf(Math.min(...cheaper.chances));
    const most = mostDoubt(book, cheaper.pressures[weakest]!);
    const less = plan.best && plan.best.price - price;
    return [
      {
        about: 'band',
        cheaper,
        condition: weakest,
        ...(less !== undefined && { less, saving: less * cheaper.chance }),
        ...(most && { most }),
      },
    ];
  }
  return [];
}

/** The instrument, or the offer, that most of a pressure's variance comes from. */
function mostDoubt(book: Book, pressure: Uncertain): MostDoubt | undefined {
  const total = standardUncertainty(pressure) ** 2;
  const readings = new Map(book.readings.map((reading) => [reading.entry.id, reading]));
  const groups = new Map<string, Group>();
  for (const { source, u } of pressure.terms) {
    const [kind, name, rest] = splitSource(source);
    const reading = kind === 'reading' ? readings.get(name) : undefined;
    const key =
      kind === 'offer' ? `offer:${name}` : kind === 'instrument' ? name : (reading?.body.instrument ?? '');
    if (key === '') continue;
    const group: Group = groups.get(key) ?? { variance: 0, of: new Set<string>() };
    group.variance += u * u;
    group.reading ??= reading;
    const about = kind === 'offer' ? rest : reading?.body.characteristic;
    if (about !== undefined) group.of.add(book.characteristics.get(about)?.name ?? about);
    if (kind === 'offer') group.offer = name;
    groups.set(key, group);
  }
  const [largest] = [...groups].sort((a, b) => b[1].variance - a[1].variance);
  if (!largest || total === 0) return undefined;
  const [key, { variance, of, offer, reading }] = largest;
  const share = variance / total;
  if (offer !== undefined) return { share, from: { kind: 'offer', offer, of: [...of].join(', ') } };
  const finer = finerOwned(book, reading);
  return {
    share,
    from: {
      kind: 'readings',
      instrument: key,
      instrumentName: book.instruments.get(key)?.body.name ?? key,
      of: [...of],
      ...(finer !== undefined && { finer }),
    },
  };
}

/** What one instrument or one offer puts in. */
interface Group {
  variance: number;
  readonly of: Set<string>;
  offer?: string;
  reading?: ReadingOnRecord | undefined;
}

function splitSource(source: string): [string, string, string?] {
  const [kind = '', name = '', ...rest] = source.split(':');
  return rest.length > 0 ? [kind, name, rest.join(':')] : [kind, name];
}

/** The finest owned that takes the same measure, if it is finer on that reading. */
function finerOwned(book: Book, reading: ReadingOnRecord | undefined): string | undefined {
  const used = reading && book.instruments.get(reading.body.instrument);
  const kind = reading && book.characteristics.get(reading.body.characteristic)?.kind;
  const said = reading?.body.value;
  if (!used || kind === undefined || kind === 'seen' || said === undefined) return undefined;
  const value = parseQuantity(said, kind);
  const doubt = (one: typeof used): number | undefined =>
    value.ok ? standardUncertaintyOf(one, kind, value.value.value) : undefined;
  const own = doubt(used);
  const [finest] = [...book.instruments.values()]
    .flatMap((one) => {
      const theirs = doubt(one);
      const finer = theirs !== undefined && own !== undefined && theirs < own;
      return finer && takesTheSame(used.body.type, one.body.type) ? [{ one, theirs }] : [];
    })
    .sort((a, b) => a.theirs - b.theirs);
  return finest?.one.body.name;
}
