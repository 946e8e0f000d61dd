import type { Alternative } from '../basket/alternatives.ts';
import type { Basket } from '../basket/basket.ts';
import type { Need } from '../basket/needs.ts';
import type { OrderStanding } from '../basket/order-standing.ts';
import type { BasketLine } from '../basket/sources.ts';
import type { Book } from '../fold/book.ts';
import { about, money } from './money.ts';
import { pastWords } from './timeline.ts';

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
export function sumWords({ price, goods, carriage, spent, cap, lines, none, currency }: Basket): string {
  if (none === 'excluded')
    return 'No basket covers it all: what is on record excludes one another. Look at what each offer excludes.';
  if (none === 'not-found')
    return 'No basket was found: too much is on record for an exact search. Strike what is no longer meant.';
  if (lines.length === 0) return 'Nothing has to be bought, or nothing on record brings what is needed.';
  const carried = carriage.reduce((sum, { charge }) => sum + charge, 0);
  const parts = carried > 0 ? ` (${money(goods, currency)} and carriage ${money(carried, currency)})` : '';
  const all = price + spent;
  const before = spent > 0 ? `; with ${money(spent, currency)} on orders so far ${money(all, currency)}` : '';
  const capped =
    cap === undefined
      ? ''
      : all > cap
        ? `, ${money(all - cap, currency)} OVER the cap of ${money(cap, currency)}`
        : `, ${money(cap - all, currency)} under the cap of ${money(cap, currency)}`;
  return `Together ${money(price, currency)}${parts}${before}${capped}.`;
}

/** Why nothing cheaper exists, as far as the record goes. */
export function proofWords({ proven, floor, price, lines, currency }: Basket): string {
  if (lines.length === 0) return '';
  const bound =
    price - floor < 0.005
      ? 'Not even split kits would cost less.'
      : `Could kits and carriage be split, nothing would cost less than ${about(floor, currency)}; they cannot.`;
  return `${proven ? 'No basket of what is on record costs less: the search for one ran to its end.' : 'The search for a cheaper basket was not finished.'} ${bound}`;
}

/** Alternatives of one price, or of none, in a sentence. */
export interface AlternativePrice {
  readonly key: string;
  readonly words: string;
}

const alternativeName = ({ what }: Alternative): string =>
  'with' in what
    ? `with ${what.name}`
    : 'without' in what
      ? `without ${what.name}`
      : 'onlyFrom' in what
        ? `all that is bought from ${what.onlyFrom} alone`
        : 'singles only, no kit';

/** What else would cost, nearest first, those of one price together: `1732, 4 more: with Head gasket; without …`. */
export function alternativePrices({ alternatives, price: best, currency }: Basket): AlternativePrice[] {
  const byPrice = new Map<number, Alternative[]>();
  for (const one of alternatives) {
    const price = one.price === undefined ? Number.POSITIVE_INFINITY : Math.round(one.price * 100) / 100;
    byPrice.set(price, [...(byPrice.get(price) ?? []), one]);
  }
  return [...byPrice]
    .sort(([a], [b]) => a - b)
    .map(([price, all]) => {
      const names = all.map(alternativeName).join('; ');
      if (!Number.isFinite(price))
        return { key: 'none', words: `Cannot be, something would stay open: ${names}.` };
      const more = price - best;
      return {
        key: String(price),
        words: `${money(price, currency)}, ${more < 0.005 ? 'the same' : `${money(more, currency)} more`}: ${names}.`,
      };
    });
}

/** What stays open or was left out of the reckoning, each in a sentence. */
export const gapWords = ({ unmet, otherSizes, past, barred, leftOver }: Basket): string[] => [
  ...(past === undefined
    ? []
    : [`The date of the job is past, by ${pastWords(past)}: nothing is left out for coming late.`]),
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

/** How far something ordered has come. */
export function standingWords({ state, part, readings, out }: OrderStanding): string {
  if (state === 'waited') return 'not here yet';
  if (state === 'arrived') return 'here, not entered as a part: not measured';
  if (state === 'not-measured') return `here as ${part!.name}: NOT MEASURED. New parts are measured too.`;
  const bad =
    out.length > 0 ? `; out: ${out.map(({ characteristic }) => characteristic.name).join(', ')}` : '';
  return `here as ${part!.name}: measured on arrival (${readings} ${readings === 1 ? 'reading' : 'readings'})${bad}`;
}

/** From whom, under which number, for how much and how long. */
export const orderDetails = ({ order: { body }, substituteFor, currency }: OrderStanding): string[] =>
  [
    body.count === undefined ? undefined : `${body.count} of it`,
    body.supplier,
    body.number === undefined ? undefined : `number as marked ${body.number}`,
    body.price === undefined ? undefined : `price ${money(body.price, currency)}`,
    body.lead_days === undefined ? undefined : `${body.lead_days} ${body.lead_days === 1 ? 'day' : 'days'}`,
    substituteFor === undefined ? undefined : `a substitute for ${substituteFor}`,
    body.note,
  ].filter((one) => one !== undefined);
