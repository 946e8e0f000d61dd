import {
  cleanUpBore,
  cleanUpJournal,
  failed,
  metre,
  type Outcome,
  ok,
  type StackTerm,
  type StackUp,
  shareOutside,
  stackUp,
  standardUncertainty,
  toleranceTerm,
  type Uncertain,
} from '@fettle/core';
import type { Assessed, Assessment } from '../assess/assessment.ts';
import type { Reckoning } from '../assess/reckoning.ts';
import type { Book } from '../fold/book.ts';
import { type Place, placeText, positionAt } from '../sheet/places.ts';
import { measuredLeaf } from '../stack/leaves.ts';
import { type Cutting, type CuttingSaid, cuttingOf } from './cutting.ts';
import {
  type Feature,
  type MadeSize,
  madeLimits,
  restsOn,
  type SizeFamily,
  shiftNow,
} from './size-family.ts';
import { type SingleWay, type SizeOffer, singleWays, sizeOffers } from './ways-to-size.ts';

export interface CommonSizeAsked extends CuttingSaid {
  /** Chance of cleaning up that a size must have, above ½ up to under 1. */
  readonly confidence?: number;
}

/** The worst of one bore or journal, and where a cut must reach for it. */
interface FeatureNeed {
  readonly feature: Feature;
  readonly worst: Uncertain;
  readonly worstAt: Place;
  /** With the wear and the cut as bad as is reckoned with. */
  readonly atWorst: number;
}

export interface SizeChance {
  readonly size: MadeSize;
  /** Limits of the finished size. */
  readonly lower: number;
  readonly upper: number;
  /** That every one of the family cleans up. */
  readonly chance: number;
  readonly offers: readonly SizeOffer[];
}

export interface CommonSize {
  readonly family: SizeFamily;
  readonly confidence: number;
  readonly cutting: Cutting;
  /** Already cut to this size. */
  readonly now?: MadeSize;
  readonly needs: readonly FeatureNeed[];
  /** Not measured everywhere. */
  readonly unread: readonly Feature[];
  /** Verdicts that the family as it is does not pass: out first, then those that cannot be told. */
  readonly forces: readonly Assessed[];
  /** Bad the other way: metal is left, and they can be brought to the size they are at. */
  readonly short: readonly Assessed[];
  readonly options: readonly SizeChance[];
  /** The smallest that can be bought and cleans up with the confidence; absent where none does. */
  readonly chosen?: SizeChance;
  /** A smaller one that would do and cannot be bought. */
  readonly passedOver?: SizeChance;
  /** Which size sets it, by its share of the doubt about what must be cut. */
  readonly setBy: FeatureNeed | undefined;
  readonly singles: readonly SingleWay[];
}

const CONFIDENCE = 0.95;
/** A chance of one in twenty is known to a twentieth of itself. */
const RUN = { trials: 20_000, seed: 1 };

/** The smallest common size to which all of a family clean up, with the chance of each, beside mending the bad ones singly. */
export function commonSize(
  book: Book,
  assessed: Assessment,
  family: SizeFamily,
  asked: CommonSizeAsked = {},
): Outcome<CommonSize> {
  const { confidence = CONFIDENCE } = asked;
  if (!(confidence > 0.5 && confidence < 1))
    return failed({
      code: 'sizes/confidence',
      at: 'confidence',
      got: String(confidence),
      wanted: 'above 0.5 and under 1',
      message: `A confidence of ${confidence} cannot be chosen. Say one above 0.5 and under 1, such as 0.95.`,
    });
  const cutting = cuttingOf(family.cut, asked);
  if (!cutting.ok) return cutting;
  const { reckoning } = assessed;
  const now = shiftNow(family, reckoning);
  const { lower, upper } = madeLimits(family, now?.name);
  const made = family.cut === 'bore' ? lower : upper;
  const read = family.features.map((feature) => readFeature(reckoning, family, feature));
  const needs = read.flatMap((one) => (one ? [needOf(family, one, made, cutting.value)] : []));
  const chances = chancesOf(
    family,
    read.filter((one) => one !== undefined),
    made,
    cutting.value,
  );
  const options = family.sizes
    .filter(({ shift }) => Math.abs(shift) > Math.abs(now?.shift ?? 0))
    .map((size): SizeChance => {
      const limits = madeLimits(family, size.name);
      return {
        size,
        ...limits,
        chance: chances?.(family.cut === 'bore' ? limits.lower : limits.upper) ?? 0,
        offers: sizeOffers(book, family, size),
      };
    });
  const enough = options.filter(({ chance }) => chance >= confidence);
  const chosen = enough.find(({ size }) => size.obtainable);
  const passedOver = enough[0] === chosen ? undefined : enough[0];
  const bad = badOf(book, assessed, family);
  const forces = bad.filter((one) => isWornWay(family, one));
  const bySide = family.cut === 'bore' ? -1 : 1;
  return ok({
    family,
    confidence,
    cutting: cutting.value,
    ...(now && { now }),
    needs,
    unread: family.features.filter((_, i) => read[i] === undefined),
    forces,
    short: bad.filter((one) => !forces.includes(one)),
    options,
    ...(chosen && { chosen }),
    ...(passedOver && { passedOver }),
    setBy: [...needs].sort((a, b) => bySide * (a.atWorst - b.atWorst))[0],
    singles: singleWays(book, assessed, family, forces),
  });
}

interface FeatureRead {
  readonly feature: Feature;
  readonly points: readonly { readonly place: Place; readonly q: Uncertain }[];
}

/** All of its places, or nothing: a place not read may be the worst. */
function readFeature(
  reckoning: Reckoning,
  { characteristic }: SizeFamily,
  feature: Feature,
): FeatureRead | undefined {
  const points = feature.places.map((place) => {
    const leaf = measuredLeaf(reckoning, characteristic, place);
    return leaf && { place, q: leaf.term.q };
  });
  if (points.some((point) => point === undefined)) return undefined;
  return { feature, points: points.map((point) => point!) };
}

const worstPoint = ({ cut }: SizeFamily, { points }: FeatureRead) =>
  points.reduce((worst, point) =>
    (cut === 'bore' ? point.q.value > worst.q.value : point.q.value < worst.q.value) ? point : worst,
  );

function needOf(family: SizeFamily, read: FeatureRead, made: number, cutting: Cutting): FeatureNeed {
  const { place, q } = worstPoint(family, read);
  return {
    feature: read.feature,
    worst: q,
    worstAt: place,
    atWorst: reached(family, q.value, made, cutting, cutting.oneSided[1], cutting.eccentricity),
  };
}

function reached(
  { cut }: SizeFamily,
  worst: number,
  made: number,
  { stock }: Cutting,
  oneSided: number,
  eccentricity: number,
): number {
  const how = { oneSided, eccentricity: metre(eccentricity), stock: metre(stock) };
  return (cut === 'bore' ? cleanUpBore : cleanUpJournal)(metre(worst), metre(made), how);
}

/**
 * The share of trials in which a finished size leaves nothing worn anywhere. Readings are drawn with the sources they
 * share, and for each bore or journal how one-sided it wore and how far off the axis it is cut.
 */
function chancesOf(
  family: SizeFamily,
  read: readonly FeatureRead[],
  made: number,
  cutting: Cutting,
): ((finished: number) => number) | undefined {
  if (read.length === 0) return undefined;
  const terms: StackTerm[] = [];
  const spans: { from: number; to: number; sided: number; off: number }[] = [];
  for (const { feature, points } of read) {
    const at = placeText(feature.place);
    const from = terms.length;
    for (const { place, q } of points) terms.push(measuredTerm(placeText(place), q));
    const [least, most] = cutting.oneSided;
    terms.push(toleranceTerm(`wear on one side ${at}`, { lower: least, upper: most }));
    terms.push(toleranceTerm(`off the axis ${at}`, { lower: 0, upper: cutting.eccentricity }));
    spans.push({ from, to: terms.length - 2, sided: terms.length - 2, off: terms.length - 1 });
  }
  const bore = family.cut === 'bore';
  const needed = (x: Float64Array): number => {
    let all = bore ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
    for (const { from, to, sided, off } of spans) {
      let worst = x[from]!;
      for (let i = from + 1; i < to; i++) worst = bore ? Math.max(worst, x[i]!) : Math.min(worst, x[i]!);
      const need = reached(family, worst, made, cutting, x[sided]!, x[off]!);
      all = bore ? Math.max(all, need) : Math.min(all, need);
    }
    return all;
  };
  const { drawn }: StackUp = stackUp(terms, needed, RUN);
  return (finished) => 1 - shareOutside(drawn, bore ? { upper: finished } : { lower: finished });
}

function measuredTerm(name: string, q: Uncertain): StackTerm {
  const reach = 2 * standardUncertainty(q);
  return { name, q, lower: q.value - reach, upper: q.value + reach };
}

/** What rests on the family and is judged on a part that is cut: its own wear, taper and clearances. */
function badOf(book: Book, { judgements }: Assessment, family: SizeFamily): Assessed[] {
  const { characteristic, positions } = family;
  const bad = judgements.filter(
    (one) =>
      (one.status === 'out' || one.status === 'cannot-tell') &&
      restsOn(book, one.characteristic, characteristic.id) &&
      [one.characteristic.position, ...(one.characteristic.mates ?? [])].some(
        (pattern) =>
          pattern !== undefined && positions.includes(positionAt(pattern, one.worstAt ?? one.place)),
      ),
  );
  return [...bad.filter(({ status }) => status === 'out'), ...bad.filter(({ status }) => status !== 'out')];
}

/**
 * Whether a verdict is bad for want of metal. A bore under its limits has metal left and can be opened up at the size
 * it is; a clearance that is too small likewise.
 */
function isWornWay({ characteristic, cut }: SizeFamily, one: Assessed): boolean {
  const { governing, verdicts, operand } = one;
  const { lower, upper } = (governing && verdicts[governing]?.limits) ?? {};
  if (operand.kind !== 'value' || lower === undefined) return true;
  const rises =
    one.characteristic.id === characteristic.id ? cut === 'bore' : !falls(one, characteristic.id, cut);
  if (upper === undefined) return !rises;
  return operand.q.value > (lower + upper) / 2 === rises;
}

/** Whether wear makes it smaller: a bore taken off something, a journal added to it. */
function falls({ characteristic: { relation } }: Assessed, id: string, cut: SizeFamily['cut']): boolean {
  if (relation === undefined || typeof relation === 'string' || !('linear' in relation)) return false;
  const factor = relation.linear.terms.find(({ of }) => of === id)?.factor;
  return factor !== undefined && factor > 0 !== (cut === 'bore');
}
