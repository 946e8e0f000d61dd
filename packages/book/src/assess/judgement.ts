import type { Caution } from '@fettle/core';
import type { PartState, SightOnRecord } from '../fold/book.ts';
import { isAt, type Place, placeAlong, placeText, positionAt } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { STACK_DOUBT } from '../words/leaves.ts';
import { rangeNoiseWords } from '../words/range-noise.ts';
import { allPlaces } from './all-places.ts';
import { unanimous } from './heard-alone.ts';
import { distinct, type Known } from './known.ts';
import { type LimitSetName, limitsOf } from './limits.ts';
import { MISSING, meanOf, type Operand } from './operand.ts';
import { type Noise, rangeNoise } from './range-noise.ts';
import type { Reckoning } from './reckoning.ts';
import { reducedOperand } from './reduced-operand.ts';
import type { Spot } from './spot.ts';
import { type Answer, narrowed, type Verdict, type Verdicts, verdictOf } from './verdict.ts';
import { TAKE_AGAIN, withheld } from './withheld.ts';

/** `missing`: not everything was read. `no-limits`: known, with nothing to judge it by. */
export type Status = Answer | 'missing' | 'no-limits';

export interface Member {
  readonly place: Place;
  readonly known: Known;
  readonly verdicts: Verdicts;
  /** What each of `known.witnesses` would say by itself, in their order. */
  readonly alone: readonly Verdicts[];
}

/** One judged thing: a characteristic at those of its axes that are judged one by one. */
export interface Judgement {
  readonly characteristic: Characteristic;
  readonly place: Place;
  readonly status: Status;
  /** The set that decides for these parts: `new` for new and machined ones, `wear` for reused. */
  readonly governing?: LimitSetName;
  readonly verdicts: Verdicts;
  /** What is judged: the worst place's, the mean, the range. */
  readonly operand: Operand;
  readonly worstAt?: Place;
  readonly members: readonly Member[];
  /** Where the worst place is judged and there are several, what the mean would have said. */
  readonly mean?: { readonly operand: Operand; readonly verdict: Answer };
  readonly sight?: SightOnRecord;
  readonly entries: readonly string[];
  readonly missing: Known['missing'];
  readonly states: readonly PartState[];
  readonly consistent: boolean;
  /** Where witnesses disagree: this itself, or what it is worked out from. */
  readonly disputes: readonly Spot[];
  /** Readings it rests on that are to be taken again, since the check of their instrument failed. */
  readonly again: readonly string[];
  readonly cautions: readonly Caution[];
}

const SETS: readonly LimitSetName[] = ['new', 'wear'];

/** `new` judges new and machined states, `wear` reused ones and mixtures; where only one set is given it serves all. */
function governingSet(
  characteristic: Characteristic,
  states: readonly PartState[],
): LimitSetName | undefined {
  const { limits } = characteristic;
  if (!limits?.new && !limits?.wear) return undefined;
  if (!limits.wear) return 'new';
  if (!limits.new) return 'wear';
  return states.length > 0 && states.every(({ condition }) => condition !== 'used') ? 'new' : 'wear';
}

function verdictsOf(
  characteristic: Characteristic,
  operand: Operand,
  cut: Known['cut'],
  size: string | undefined,
): Verdicts {
  const verdicts: Partial<Record<LimitSetName, Verdict>> = {};
  for (const set of SETS) {
    const limits = limitsOf(characteristic, set, size);
    const verdict = limits && verdictOf(operand, cut, set, limits);
    if (verdict) verdicts[set] = verdict;
  }
  return verdicts;
}

/** All witnesses together, and each alone. When they disagree, only what every one says alone is believed. */
function memberVerdicts(
  reckoning: Reckoning,
  characteristic: Characteristic,
  place: Place,
  known: Known,
  size: string | undefined,
): Pick<Member, 'verdicts' | 'alone'> {
  const { again } = reckoning;
  const together = withheld(known.entries, again, verdictsOf(characteristic, known.operand, known.cut, size));
  const alone = known.witnesses.map(({ operand, entries, disputes }, i) => {
    const own = withheld(entries, again, verdictsOf(characteristic, operand, undefined, size));
    if (disputes.length === 0) return own;
    const each = reckoning.heard(disputes)?.map((heard) => {
      const witness = heard.at(characteristic.id, place).witnesses[i];
      return witness ? verdictsOf(characteristic, witness.operand, undefined, size) : {};
    });
    return unanimous(own, each);
  });
  if (known.consistent) return { verdicts: together, alone };
  const heard = alone.filter((_, i) => known.witnesses[i]?.operand.kind !== 'missing');
  return { verdicts: unanimous(together, heard), alone };
}

const RANK: Readonly<Record<Answer, number>> = { out: 0, 'cannot-tell': 1, in: 2 };

/** The worst first: out before cannot-tell before in, then the less likely to be inside. */
function worseOf(set: LimitSetName) {
  return (a: Member, b: Member): number => {
    const [va, vb] = [a.verdicts[set], b.verdicts[set]];
    if (!va || !vb) return Number(va === undefined) - Number(vb === undefined);
    return RANK[va.verdict] - RANK[vb.verdict] || (va.probabilityIn ?? 0.5) - (vb.probabilityIn ?? 0.5);
  };
}

/** Every judgement of a characteristic, in bench order. */
export function judgementsOf(reckoning: Reckoning, characteristic: Characteristic): Judgement[] {
  const over = characteristic.reduce?.over ?? [];
  const axes = characteristic.places.filter((axis) => !over.includes(axis));
  const groups = new Map<string, Place[]>();
  for (const place of reckoning.places(characteristic)) {
    const key = JSON.stringify(placeAlong(place, axes));
    groups.set(key, [...(groups.get(key) ?? []), place]);
  }
  return [...groups.values()].map((places) => {
    const place = placeAlong(places[0]!, axes);
    return characteristic.kind === 'seen'
      ? seenJudgement(reckoning, characteristic, place)
      : judged(reckoning, characteristic, place, places);
  });
}

function seenJudgement(reckoning: Reckoning, characteristic: Characteristic, place: Place): Judgement {
  const state = characteristic.position && reckoning.selection(positionAt(characteristic.position, place));
  const sight = reckoning.book.sights
    .filter(
      ({ body, standing }) =>
        standing === 'counts' &&
        body.characteristic === characteristic.id &&
        isAt(body.place ?? {}, place) &&
        (characteristic.position === undefined || body.state === state),
    )
    .at(-1);
  return {
    characteristic,
    place,
    status: sight ? (sight.body.as_wanted ? 'in' : 'out') : 'missing',
    verdicts: {},
    operand: MISSING,
    members: [],
    ...(sight && { sight }),
    entries: sight ? [sight.entry.id] : [],
    missing: sight ? [] : [{ characteristic: characteristic.id, place }],
    states: [],
    consistent: true,
    disputes: [],
    again: [],
    cautions: [],
  };
}

/** The size the limits are moved to: that of the part it belongs to, or, belonging to none, of what it rests on. */
function sizeAt(
  reckoning: Reckoning,
  characteristic: Characteristic,
  place: Place,
  states: readonly PartState[],
): string | undefined {
  if (characteristic.position !== undefined) return reckoning.ownState(characteristic, place)?.size;
  return states.find((state) => state.size !== undefined)?.size;
}

function judged(
  reckoning: Reckoning,
  characteristic: Characteristic,
  place: Place,
  places: readonly Place[],
): Judgement {
  const all = places.map((at) => ({ place: at, known: reckoning.at(characteristic.id, at) }));
  const states = [...new Map(all.flatMap(({ known }) => [...known.states])).values()];
  const governing = governingSet(characteristic, states);
  const members: Member[] = all.map(({ place: at, known }) => ({
    place: at,
    known,
    ...memberVerdicts(reckoning, characteristic, at, known, sizeAt(reckoning, characteristic, at, states)),
  }));
  const size = sizeAt(reckoning, characteristic, places[0]!, states);
  const by = characteristic.reduce?.by ?? 'worst';
  const missing = distinct(all.flatMap(({ known }) => known.missing));
  const entries = [...new Set(all.flatMap(({ known }) => known.entries))];
  const base = {
    characteristic,
    place,
    ...(governing && { governing }),
    members,
    entries,
    again: entries.filter((id) => reckoning.again.has(id)),
    stacked: entries.some((id) => reckoning.stacked.has(id)),
    missing,
    states,
    consistent: all.every(({ known }) => known.consistent),
    disputes: distinct(all.flatMap(({ known }) => known.disputes)),
    cautions: distinct(all.flatMap(({ known }) => known.cautions)),
  };
  if (by === 'worst') return worstJudgement(base, governing, characteristic, size);
  const operand = reducedOperand(
    by,
    members.map(({ known }) => effective(known)),
  );
  const together = withheld(entries, reckoning.again, verdictsOf(characteristic, operand, undefined, size));
  const each = (): Verdicts[] | undefined =>
    reckoning.heard(base.disputes)?.map((heard) => {
      const believed = places.map((at) => effective(heard.at(characteristic.id, at)));
      return verdictsOf(characteristic, reducedOperand(by, believed), undefined, size);
    });
  const verdicts = base.consistent ? together : unanimous(together, each());
  const noise = by === 'range' ? rangeNoise(members.map(({ known }) => effective(known))) : undefined;
  const { stacked: _stacked, ...plain } = base;
  return {
    ...plain,
    operand,
    verdicts,
    status: statusOf(operand, governing, governing && verdicts[governing]?.verdict),
    cautions: cautionsOf(base, governing, verdicts, noise),
  };
}

type Base = Pick<
  Judgement,
  | 'characteristic'
  | 'place'
  | 'members'
  | 'entries'
  | 'again'
  | 'missing'
  | 'states'
  | 'consistent'
  | 'disputes'
  | 'cautions'
  | 'governing'
> & { readonly stacked: boolean };

function worstJudgement(
  base: Base,
  governing: LimitSetName | undefined,
  characteristic: Characteristic,
  size: string | undefined,
): Judgement {
  const { members } = base;
  const overall: Partial<Record<LimitSetName, Verdict>> = {};
  for (const set of SETS) {
    const worst = [...members].sort(worseOf(set))[0]?.verdicts[set];
    const complete = members.every(({ verdicts }) => verdicts[set]);
    // One place out is enough; to be in, every place must have been read.
    if (worst && (complete || worst.verdict === 'out'))
      overall[set] = allPlaces(
        members.map(({ verdicts, known }) => ({ verdicts, number: effective(known) })),
        set,
        worst,
      );
  }
  const worst = governing ? [...members].sort(worseOf(governing))[0] : undefined;
  const shown = worst ?? members.find(({ known }) => known.operand.kind !== 'missing');
  const operand = shown ? shown.known.operand : MISSING;
  const everyKnown = members.every(({ known }) => known.operand.kind !== 'missing');
  const verdict = governing && overall[governing]?.verdict;
  const numbers = members.map(({ known }) => effective(known));
  const mean = members.length > 1 && governing ? meanOf(numbers) : MISSING;
  const meanVerdict = governing && verdictsOf(characteristic, mean, undefined, size)[governing]?.verdict;
  const { stacked: _stacked, ...plain } = base;
  return {
    ...plain,
    operand,
    verdicts: overall,
    status: verdict ?? (everyKnown ? statusOf(operand, governing, verdict) : 'missing'),
    ...(shown && members.length > 1 && { worstAt: shown.place }),
    ...(meanVerdict && { mean: { operand: mean, verdict: meanVerdict } }),
    cautions: cautionsOf(base, governing, overall, shown?.known.noise),
  };
}

/** What goes on into means and ranges: the number, drawn in by leaves that cut it. */
const effective = (known: Known): Operand =>
  known.cut && known.operand.kind === 'value'
    ? { kind: 'value', q: narrowed(known.operand.q, known.cut) }
    : known.operand;

function statusOf(
  operand: Operand,
  governing: LimitSetName | undefined,
  verdict: Answer | undefined,
): Status {
  if (operand.kind === 'missing') return 'missing';
  return governing ? (verdict ?? 'missing') : 'no-limits';
}

/** From this share of the limit on, what greatest less least shows of nothing at all is worth a word; a choice. */
const READS_WIDE = 0.1;

function cautionsOf(
  { characteristic, place, consistent, disputes, again, stacked, cautions: before }: Base,
  governing: LimitSetName | undefined,
  verdicts: Verdicts,
  noise: Noise | undefined,
): Caution[] {
  const cautions: Caution[] = [...before, ...((governing && verdicts[governing]?.cautions) ?? [])];
  if (again.length > 0) cautions.push(TAKE_AGAIN);
  if (stacked) cautions.push({ code: 'feeler/stacked', message: `By leaves laid together. ${STACK_DOUBT}` });
  const behind = disputes
    .filter((one) => one.characteristic !== characteristic.id || !isAt(place, one.place))
    .map((one) => [one.characteristic, placeText(one.place)].filter((part) => part !== '').join('@'));
  if (!consistent)
    cautions.push({
      code: 'verdict/witnesses-disagree',
      message:
        behind.length === 0
          ? 'The witnesses disagree by more than their uncertainties allow; the larger uncertainty is kept.'
          : `It rests on ${behind.join(', ')}, whose witnesses disagree by more than their uncertainties allow: it is in or out only where it would be so whichever of them is right.`,
    });
  const upper = governing && verdicts[governing]?.limits.upper;
  if (noise && upper !== undefined && noise.mean >= READS_WIDE * upper)
    cautions.push({ code: 'verdict/range-reads-wide', message: rangeNoiseWords(characteristic, noise) });
  if (
    governing === 'wear' &&
    verdicts.wear?.verdict === 'in' &&
    verdicts.new &&
    verdicts.new.verdict !== 'in'
  )
    cautions.push({
      code: 'verdict/worn-within-wear',
      message: 'Within the wear limit but not proven within the limits for new parts.',
    });
  return cautions;
}
