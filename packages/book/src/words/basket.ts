import type { Alternative, Basket, BasketLine } from '../basket/basket.ts';
import type { Need } from '../basket/needs.ts';
import type { Book } from '../fold/book.ts';
import { about, money } from './money.ts';

export const countWords = (count: number, name: string): string =>
  count === 1 ? name : `${count} × ${name}`;

/** `4 × Piston and rings, .030 over`. */
export const needWords = ({ name, size, count }: Pick<Need, 'name' | 'size' | 'count'>): string =>
  `${countWords(count, name)}${size === undefined ? '' : `, ${size}`}`;

/** Why something is needed: the parts decided on, the plan, a wish. */
export function needReasons(book: Book, { reasons }: Need): string {
  const parts = reasons.flatMap((one) =>
    one.by === 'decision' ? [book.parts.get(one.part)?.name ?? one.part] : [],
  );
  const said = [
    ...(parts.length > 0
      ? [`decided: ${parts.slice(0, 3).join(', ')}${parts.length > 3 ? ` and ${parts.length - 3} more` : ''}`]
      : []),
    ...reasons.flatMap((one) => (one.by === 'offer' ? ['the plan takes it'] : [])),
    ...reasons.flatMap((one) => (one.by === 'wish' ? [one.why ?? 'wanted'] : [])),
  ];
  return said.join('; ');
}

/** Asked for by the plan alone: a repair, not a thing one could name otherwise. */
export const isPlanOnly = ({ reasons }: Need): boolean => reasons.every(({ by }) => by === 'offer');

/** The repairs of the plan, in a sentence. */
export function planNeedsWords(needs: readonly Need[]): string {
  const planned = needs.filter(isPlanOnly);
  return planned.length === 0 ? '' : `The plan takes: ${planned.map(({ name }) => name).join(', ')}.`;
}

/** What a line of the basket is for: `for Relief spring and Pump stud`. */
export const forWords = ({ covers, name }: BasketLine): string => {
  const others = covers.filter(({ need }) => need.name !== name && !isPlanOnly(need));
  return others.length === 0
    ? ''
    : `for ${others.map(({ need, count }) => needWords({ ...need, count: Math.min(count, need.count) })).join('; ')}`;
};

/** Supplier, number, time and what to know before it is bought, in a row. */
export const lineDetails = (line: BasketLine): string[] =>
  [
    line.supplier,
    line.number === undefined ? undefined : `number ${line.number}`,
    line.leadTime ?? 'no time said',
    line.trust === 'assumed' ? 'price assumed' : undefined,
    line.substituteFor === undefined
      ? undefined
      : `a substitute for ${line.substituteFor}: measure it beside what it stands for`,
  ].filter((one) => one !== undefined);

/** The sum in a sentence, with the cap. */
export function sumWords({ price, goods, carriage, spent, cap, lines }: Basket): string {
  if (lines.length === 0) return 'Nothing has to be bought, or nothing on record brings what is needed.';
  const carried = carriage.reduce((sum, { charge }) => sum + charge, 0);
  const parts = carried > 0 ? ` (${money(goods)} and carriage ${money(carried)})` : '';
  const all = price + spent;
  const before = spent > 0 ? `; with ${money(spent)} on orders so far ${money(all)}` : '';
  const capped =
    cap === undefined
      ? ''
      : all > cap
        ? `, ${money(all - cap)} OVER the cap of ${money(cap)}`
        : `, ${money(cap - all)} under the cap of ${money(cap)}`;
  return `Together ${money(price)}${parts}${before}${capped}.`;
}

/** Why nothing cheaper exists, as far as the record goes. */
export function proofWords({ proven, floor, price, lines }: Basket): string {
  if (lines.length === 0) return '';
  const bound =
    price - floor < 0.005
      ? 'Not even split kits would cost less.'
      : `Could kits and carriage be split, nothing would cost less than ${about(floor)}; they cannot.`;
  return `${proven ? 'No basket of what is on record costs less: the search for one ran to its end.' : 'The search for a cheaper basket was not finished.'} ${bound}`;
}

/** `With Pump overhaul set: 1700, 12 more.` */
export function alternativeWords({ what, price }: Alternative, best: number): string {
  const name =
    'with' in what
      ? `With ${what.name}`
      : 'without' in what
        ? `Without ${what.name}`
        : 'onlyFrom' in what
          ? `All that is bought from ${what.onlyFrom} alone`
          : 'Singles only, no kit';
  if (price === undefined) return `${name}: cannot be, something would stay open.`;
  const more = price - best;
  return `${name}: ${money(price)}, ${more < 0.005 ? 'the same' : `${money(more)} more`}.`;
}

/** Alternatives that somebody might ask about: what costs the same or more, nearest first; what cannot be comes last. */
export const alternativesInOrder = ({ alternatives }: Basket): readonly Alternative[] =>
  [...alternatives].sort(
    (a, b) => (a.price ?? Number.POSITIVE_INFINITY) - (b.price ?? Number.POSITIVE_INFINITY),
  );

/** What stays open or was left out of the reckoning, each in a sentence. */
export const gapWords = ({ unmet, otherSizes, barred, leftOver }: Basket): string[] => [
  ...unmet.map((need) => {
    const others = otherSizes.find((one) => one.need.key === need.key)?.supplies ?? [];
    return `${needWords(need)}: nothing on record brings it.${others.length > 0 ? ` ${others.join(', ')}: of another size, or of none that was said.` : ''}`;
  }),
  ...barred.map(({ name, why }) =>
    why === 'not-in-time'
      ? `${name}: not reckoned with, it comes too late.`
      : `${name}: not reckoned with, the plan takes what excludes it.`,
  ),
  ...leftOver.map(({ name, count }) => `Left over: ${countWords(count, name)}.`),
];
