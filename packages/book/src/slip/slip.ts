import { conformity, estimateOf } from '@fettle/core';
import type { Assessed } from '../assess/assessment.ts';
import type { Judgement } from '../assess/judgement.ts';
import { judgementsOf } from '../assess/judgement.ts';
import { type Limits, limitsOf } from '../assess/limits.ts';
import { Reckoning } from '../assess/reckoning.ts';
import type { Catalogue } from '../assess/relations.ts';
import { asFittedNow } from '../assess/selection.ts';
import { type Answer, RISK } from '../assess/verdict.ts';
import { positionOfPart } from '../basket/needs.ts';
import type { Book, Part, PartState, Written } from '../fold/book.ts';
import { isAt, type Place, positionAt } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { type FinishedSize, type FinishedSizes, finishedSizes } from './finished-size.ts';
import { type ShopPractice, shopPractice } from './shop-practice.ts';

/** What came back at one place, against what was wanted of it. */
interface Returned {
  readonly judgement: Assessed;
  /** Absent where nothing was measured. */
  readonly verdict?: Answer;
}

/** One thing the shop is asked to bring to size. */
export interface SlipLine {
  readonly characteristic: Characteristic;
  /** Empty: everywhere on the part. */
  readonly at: Place;
  /** As it was before machining. */
  readonly found: readonly Judgement[];
  readonly wanted: Limits;
  /** Limits for new parts, or for wear where the sheet gives no others. */
  readonly by: 'new' | 'wear';
  /** Within its limits as it was, and of no size that moves: nothing is asked but that it stays so. */
  readonly stays: boolean;
  /** The part to which it is made. */
  readonly suits?: FinishedSize;
  /** As measured on arrival; empty until it is back. */
  readonly returned: readonly Returned[];
}

export interface SlipComponent {
  readonly part: Part;
  readonly position: string;
  readonly disposition: Written<'disposition'>;
  readonly lines: readonly SlipLine[];
  readonly practice: ShopPractice;
  /** Back from the shop: its machined state. */
  readonly back?: PartState;
  /** Places judged so far, and how many of them are as wanted. */
  readonly measured: number;
  readonly inside: number;
}

/**
 * The machine-shop slip: for each part decided to be machined the sizes wanted with their limits, what to plug, wash
 * and prove clean, and, once it is back, what it measures against what was wanted.
 *
 * @param judgements  of the parts as fitted now
 * @param sizes       how finished sizes that suit a measured part are worked out
 */
export function slipOf(
  book: Book,
  judgements: readonly Assessed[],
  catalogue: Catalogue,
  sizes: FinishedSizes = finishedSizes,
): SlipComponent[] {
  return [...book.dispositions.values()].flatMap((disposition): SlipComponent[] => {
    const { part: id, decision } = disposition.body;
    const part = book.parts.get(id);
    const position = positionOfPart(book, id);
    if (decision !== 'machine' || !part || position === undefined) return [];
    const back = part.states.length > 1 && part.current.condition === 'machined' ? part.current : undefined;
    const lines = linesOf(book, judgements, catalogue, { part, position, back, sizes, disposition });
    const judged = lines.flatMap(({ returned }) => returned).filter(({ verdict }) => verdict !== undefined);
    const name = book.sheet?.positions.find(({ id: at }) => at === position)?.name ?? part.name;
    return [
      {
        part,
        position,
        disposition,
        lines,
        practice: shopPractice(position, name),
        ...(back && { back }),
        measured: judged.length,
        inside: judged.filter(({ verdict }) => verdict === 'in').length,
      },
    ];
  });
}

interface Component {
  readonly part: Part;
  readonly position: string;
  readonly back: PartState | undefined;
  readonly sizes: FinishedSizes;
  readonly disposition: Written<'disposition'>;
}

function linesOf(
  book: Book,
  judgements: readonly Assessed[],
  catalogue: Catalogue,
  { part, position, back, sizes, disposition }: Component,
): SlipLine[] {
  const before = part.states[0]!.id;
  const now = asFittedNow(book);
  const then = new Reckoning(book, (at) => (at === position ? before : now(at)), catalogue);
  const suited = sizes(book, catalogue, position);
  const { size } = disposition.body;
  return [...book.characteristics.values()].flatMap((characteristic): SlipLine[] => {
    const by = judgedBy(characteristic);
    if (!by || !isOnPart(characteristic, judgements, position)) return [];
    const found = judgementsOf(then, characteristic).filter((one) => isHere(one, position));
    const returned = back
      ? judgements.filter((one) => one.characteristic.id === characteristic.id && isHere(one, position))
      : [];
    const wanted = limitsOf(characteristic, by, size) ?? {};
    const own = suited.filter((one) => one.characteristic.id === characteristic.id);
    const stays =
      own.length === 0 &&
      found.length > 0 &&
      characteristic.sizes?.some(({ name }) => name === size) !== true &&
      found.every(({ verdicts }) => verdicts[by]?.verdict === 'in');
    const judged = (list: readonly Assessed[], limits: Limits, suited: boolean): Returned[] =>
      list.map((judgement) => {
        const verdict = suited ? againstWanted(judgement, limits) : judgement.verdicts[by]?.verdict;
        return { judgement, ...(verdict && judgement.status !== 'missing' && { verdict }) };
      });
    if (own.length === 0)
      return [
        { characteristic, at: {}, found, wanted, by, stays, returned: judged(returned, wanted, false) },
      ];
    return own.map((suits) => ({
      characteristic,
      at: suits.at,
      found: found.filter(({ place }) => isAt(suits.at, place)),
      wanted: suits.limits,
      by,
      stays,
      suits,
      returned: judged(
        returned.filter(({ place }) => isAt(suits.at, place)),
        suits.limits,
        true,
      ),
    }));
  });
}

/** Made to suit a part, it is held to that part's window, not to the sheet's for the size. */
function againstWanted({ members, operand }: Assessed, limits: Limits): Answer | undefined {
  const operands = members.length > 0 ? members.map(({ known }) => known.operand) : [operand];
  const answers = operands.flatMap((one) =>
    one.kind === 'value' ? [conformity(estimateOf(one.q), limits, RISK).verdict] : [],
  );
  return (['out', 'cannot-tell', 'in'] as const).find((answer) => answers.includes(answer));
}

/**
 * The limits that a machined part is made to. What is worked out from a size that moves (wear from standard) asks
 * nothing of the shop that the size itself does not ask.
 */
function judgedBy({ limits, relation, sizes, kind }: Characteristic): 'new' | 'wear' | undefined {
  if (kind === 'seen') return undefined;
  if (limits?.new) return 'new';
  return limits?.wear && !(relation !== undefined && sizes !== undefined) ? 'wear' : undefined;
}

/** Measured on the part alone: a clearance with a mate is no size a shop can make. */
const isOnPart = (
  { mates, position: pattern, id, relation }: Characteristic,
  judgements: readonly Assessed[],
  position: string,
): boolean =>
  mates === undefined &&
  pattern !== undefined &&
  judgements.some((one) => one.characteristic.id === id && isHere(one, position)) &&
  (relation === undefined ||
    !judgements.some(
      (one) => one.characteristic.id === id && new Set(one.states.map((state) => state.id)).size > 1,
    ));

const isHere = ({ characteristic, place, members }: Judgement, position: string): boolean => {
  const places = members.length > 0 ? members.map((member) => member.place) : [place];
  return (
    characteristic.position !== undefined &&
    places.some((at) => positionAt(characteristic.position!, at) === position)
  );
};
