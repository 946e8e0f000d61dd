import type { Assessed } from '../assess/assessment.ts';
import { needOfPosition } from '../basket/need-name.ts';
import type { Book, Part, Written } from '../fold/book.ts';
import type { Relation } from '../sheet/relation.ts';
import { evidenceOfParts, type PartEvidence } from './part-evidence.ts';
import { type ReuseCost, reuseCost } from './reuse-cost.ts';
import { type Way, waysFor } from './ways.ts';

type Decision = 'reuse' | 'machine' | 'replace';

/** What the verdicts would have of a part; the owner confirms it, or decides otherwise. */
export interface Proposal {
  readonly part: Part;
  readonly position: string;
  /** Absent where the evidence does not carry one. */
  readonly decision?: Decision;
  readonly size?: string;
  readonly because: /** A verdict of its own is out, and something on record settles it. */
    | 'out'
    /** The plan does something that settles what is not in. */
    | 'plan'
    /** Out, and nothing on record settles it. */
    | 'no-way'
    /** Out, and what is on record does not say whether it machines or replaces. */
    | 'way-unsaid'
    /** What it runs with goes to another size. */
    | 'partner'
    | 'in'
    /** Cannot be told, and by expected cost one is the cheaper. */
    | 'expected-cost'
    | 'cannot-tell'
    | 'not-read'
    /** The sheet gives no limits for it. */
    | 'not-judged';
  readonly out: readonly Assessed[];
  readonly undecided: readonly Assessed[];
  readonly unread: readonly Assessed[];
  readonly inside: readonly Assessed[];
  /** Out together with other parts, under whose name it counts. */
  readonly outWith: PartEvidence['shared'];
  /** The part whose new size forces this one. */
  readonly partner?: { readonly part: Part; readonly size: string };
  /** What was taken to bring it back, cheapest that settles everything first. */
  readonly ways: readonly Way[];
  readonly chosen: readonly Way[];
  /** Out, and nothing that was chosen settles it. */
  readonly left: readonly Assessed[];
  readonly price?: number;
  readonly cost?: ReuseCost;
  /** Entries on which it rests. */
  readonly entries: readonly string[];
  /** What the owner decided, and whether it is what is proposed. */
  readonly decided?: Written<'disposition'>;
  readonly agrees?: boolean;
  /** Of every price, by ISO 4217. */
  readonly currency?: string;
}

/**
 * A proposal for each part that is fitted: out goes to be machined or replaced by what is on record for it, in is used
 * again, and what cannot be told goes by expected cost where that is known.
 *
 * @param taken  repairs on offer that are to be done, preferred where they settle it
 */
export function proposalsOf(
  book: Book,
  judgements: readonly Assessed[],
  taken: readonly string[] = [],
): Proposal[] {
  const evidence = evidenceOfParts(book, judgements);
  const first = evidence.map((one) => proposalOf(book, one, taken));
  return first.map((proposal, i) => {
    const partner = partnerOf(book, evidence[i]!, first);
    return withDecision(book, partner ? forced(book, evidence[i]!, proposal, partner, taken) : proposal);
  });
}

function proposalOf(book: Book, evidence: PartEvidence, taken: readonly string[]): Proposal {
  const { part, position, own, shared } = evidence;
  const by = (status: Assessed['status']): Assessed[] => own.filter((one) => one.status === status);
  const [out, undecided, inside] = [by('out'), by('cannot-tell'), by('in')];
  const unread = by('missing').filter(({ characteristic }) => characteristic.optional !== true);
  const ways = waysFor(book, part.id, position, [...out, ...undecided]);
  const unsettled = out.length > 0 ? out : undecided;
  const chosen = chosenWays(ways, unsettled, taken);
  const settled = new Set(chosen.flatMap(({ settles }) => settles));
  const isReplaced = chosen.some(({ settles }) => settles.length === 0);
  const price = chosen.length > 0 ? chosen.reduce((sum, way) => sum + way.price, 0) : undefined;
  const weighed = unsettled.length > 0 ? unsettled.filter((one) => isReplaced || settled.has(one)) : inside;
  const cost = price === undefined ? undefined : reuseCost(book, weighed, price);
  const currency = book.opened?.body.currency;
  const base = {
    ...(currency !== undefined && { currency }),
    part,
    position,
    out,
    undecided,
    unread,
    inside,
    outWith: shared.filter(({ judgement }) => judgement.status === 'out'),
    ways,
    chosen,
    left: isReplaced ? [] : out.filter((one) => !settled.has(one)),
    ...(price !== undefined && { price }),
    ...(cost && { cost }),
    entries: [...new Set((unsettled.length > 0 ? unsettled : own).flatMap(({ entries }) => entries))],
  };
  const isPlanned = chosen.some(({ id }) => taken.includes(id));
  if (out.length > 0) {
    if (chosen.length === 0) return { ...base, because: 'no-way' };
    return { ...base, ...asDone(chosen, out.some((one) => settled.has(one)) || isReplaced ? 'out' : 'plan') };
  }
  if (undecided.length > 0) {
    if (isPlanned) return { ...base, ...asDone(chosen, 'plan') };
    if (cost?.reuse === undefined) return { ...base, because: 'cannot-tell' };
    if (cost.reuse <= cost.price) return { ...base, decision: 'reuse', because: 'expected-cost' };
    return { ...base, ...asDone(chosen, 'expected-cost') };
  }
  if (unread.length > 0) return { ...base, because: 'not-read' };
  if (inside.length === 0) return { ...base, because: 'not-judged' };
  return { ...base, decision: 'reuse', because: 'in' };
}

/** What is done to a part, from the ways taken: machining keeps the part, whatever else is bought with it. */
function asDone(
  chosen: readonly Way[],
  because: 'out' | 'plan' | 'expected-cost',
): Pick<Proposal, 'decision' | 'size' | 'because'> {
  const machining = chosen.filter(({ decision }) => decision === 'machine');
  const machined = machining.find(({ size }) => size !== undefined) ?? machining[0];
  const way = machined ?? chosen.find(({ decision }) => decision === 'replace');
  if (!way) return { because: 'way-unsaid' };
  return {
    because,
    decision: way.decision!,
    ...(way.size !== undefined && { size: way.size }),
  };
}

/**
 * The ways taken: what the plan has taken where it settles anything; for the rest one way for all, else the cheapest
 * for each verdict that has one.
 */
function chosenWays(ways: readonly Way[], unsettled: readonly Assessed[], taken: readonly string[]): Way[] {
  const chosen = ways.filter(({ id, settles }) => settles.length > 0 && taken.includes(id));
  const open = (): Assessed[] => {
    const settled = new Set(chosen.flatMap(({ settles }) => settles));
    return unsettled.filter((one) => !settled.has(one));
  };
  const rest = open();
  if (rest.length === 0) return chosen;
  const whole = ways.find(
    ({ settles }) => settles.length > 0 && rest.every((one) => settles.includes(one)) && !chosen.length,
  );
  if (whole) return [whole];
  for (const one of rest) {
    const way = open().includes(one) && ways.find(({ settles }) => settles.includes(one));
    if (way) chosen.push(way);
  }
  if (chosen.length > 0) return chosen;
  const another = ways.find(({ decision, settles }) => decision === 'replace' && settles.length === 0);
  return another ? [another] : [];
}

/** A part measured in the same relation, which is to be machined to another size. */
function partnerOf(
  book: Book,
  { part, position }: PartEvidence,
  proposals: readonly Proposal[],
): Proposal['partner'] {
  for (const other of proposals) {
    const standing = book.dispositions.get(other.part.id)?.body;
    const { decision, size } = standing ?? other;
    if (decision !== 'machine' || size === undefined || other.part.id === part.id) continue;
    // Back from the shop in that size, it asks no more.
    const own = needOfPosition(book.sheet, position);
    const isPaired = [...book.characteristics.values()].some(({ relation }) => {
      if (relation === undefined) return false;
      const patterns = namedIn(relation).map((id) => book.characteristics.get(id)?.position);
      // A pair runs on one another; in a stack of three the housing keeps its size, and what lies between changes.
      return (
        new Set(patterns).size === 2 &&
        patterns.some((one) => one !== undefined && patternFits(book, one, position)) &&
        patterns.some((one) => one !== undefined && patternFits(book, one, other.position)) &&
        namedIn(relation).some((id) => {
          const named = book.characteristics.get(id);
          return (
            named?.position !== undefined &&
            patternFits(book, named.position, other.position) &&
            named.sizes?.some(({ name }) => name === size)
          );
        })
      );
    });
    // A new part is believed to be of that size until somebody says of which it is.
    const isOther =
      part.current.size === undefined ? part.current.condition !== 'new' : part.current.size !== size;
    if (own && isPaired && isOther) return { part: other.part, size };
  }
  return undefined;
}

const patternFits = (book: Book, pattern: string, position: string): boolean =>
  needOfPosition(book.sheet, position)?.need === pattern.replace(/[-.]?\{[^{}]*\}/g, '');

/** Characteristics a relation is worked out from. */
function namedIn(relation: Relation): string[] {
  if (typeof relation === 'string') return [relation];
  if ('characteristic' in relation) return [relation.characteristic];
  if ('linear' in relation) return relation.linear.terms.flatMap(({ of }) => namedIn(of));
  if ('reduce' in relation) return namedIn(relation.reduce.of);
  if ('ratio' in relation)
    return [...relation.ratio.of.terms, ...relation.ratio.by.terms].flatMap(({ of }) => namedIn(of));
  return Object.values(relation.calculator.inputs).flatMap((input) =>
    'of' in input ? namedIn(input.of) : [],
  );
}

/** Run with a part of another size, this one cannot be used again, whatever it measures. */
function forced(
  book: Book,
  evidence: PartEvidence,
  proposal: Proposal,
  partner: NonNullable<Proposal['partner']>,
  taken: readonly string[],
): Proposal {
  if (proposal.decision === 'machine') return proposal;
  const { part, position } = evidence;
  const ways = waysFor(book, part.id, position, [], partner.size);
  const way = ways.find(({ id }) => taken.includes(id)) ?? ways[0];
  const { cost: _, price: __, ...rest } = proposal;
  return {
    ...rest,
    decision: 'replace',
    size: partner.size,
    because: 'partner',
    partner,
    ways,
    chosen: way ? [way] : [],
    left: [],
    ...(way && { price: way.price }),
  };
}

function withDecision(book: Book, proposal: Proposal): Proposal {
  const decided = book.dispositions.get(proposal.part.id);
  if (!decided) return proposal;
  const { decision, size } = decided.body;
  return { ...proposal, decided, agrees: decision === proposal.decision && size === proposal.size };
}
