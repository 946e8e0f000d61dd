import type { Assessed } from '../assess/assessment.ts';
import { NO_ANSWER } from '../assess/known.ts';
import type { Proposal } from '../deciding/proposal.ts';
import type { ReuseCost } from '../deciding/reuse-cost.ts';
import type { Way } from '../deciding/ways.ts';
import type { Book } from '../fold/book.ts';
import { placeText } from '../sheet/places.ts';
import { about, chance, money } from './money.ts';
import { limitWords, operandWords } from './quantity.ts';

// The words of the deciding are the same on the page, in the terminal and on paper.

/** Every entry by its number in the order of folding, as the build book numbers them. */
export const entryNumbers = (book: Book): ReadonlyMap<string, number> =>
  new Map(book.entries.map(({ id }, i) => [id, i + 1]));

/** `entries 12, 13 and 18 more`. */
export function entriesWords(numbers: ReadonlyMap<string, number>, ids: readonly string[], most = 8): string {
  const sorted = ids.flatMap((id) => numbers.get(id) ?? []).sort((a, b) => a - b);
  if (sorted.length === 0) return 'no entry';
  const shown = sorted.slice(0, most).join(', ');
  const more = sorted.length - most;
  return `${sorted.length === 1 ? 'entry' : 'entries'} ${shown}${more > 0 ? ` and ${more} more` : ''}`;
}

const DECISIONS = { reuse: 'use it again', machine: 'machine it', replace: 'replace it' } as const;
const DONE = { reuse: 'used again', machine: 'to be machined', replace: 'to be replaced' } as const;
const STATUS: Readonly<Record<Assessed['status'], string>> = {
  in: 'in',
  out: 'out',
  'cannot-tell': 'cannot be told',
  missing: 'not read',
  'no-limits': 'no limits',
};

export const judgedName = ({ characteristic, place }: Assessed): string => {
  const at = placeText(place);
  return at === '' ? characteristic.name : `${characteristic.name} ${at}`;
};

/** `Rod journal 2: out, 2.1227 ±0.0002 in against min 2.1230 in, at 2/rear/90`. */
export function verdictLine(judgement: Assessed): string {
  const { characteristic, governing, verdicts, operand, sight, worstAt, status } = judgement;
  const name = judgedName(judgement);
  if (sight) return `${name}: ${STATUS[status]}, seen: ${sight.body.found}`;
  if (status === 'missing')
    return judgement.cautions.some(({ code }) => code === NO_ANSWER)
      ? `${name}: cannot be worked out from what was read`
      : `${name}: not read`;
  const verdict = governing && verdicts[governing];
  const limits = verdict ? ` against ${limitWords(characteristic, verdict.limits)}` : '';
  const at = worstAt && placeText(worstAt) !== placeText(judgement.place) ? `, at ${placeText(worstAt)}` : '';
  return `${name}: ${STATUS[status]}, ${operandWords(characteristic, operand)}${limits}${at}`;
}

const sized = (size: string | undefined): string => (size === undefined ? '' : `, ${size}`);

/** What is proposed for a part, in a few words. */
export const proposedWords = ({ decision, size, because }: Proposal): string =>
  decision
    ? `${DECISIONS[decision]}${sized(size)}`
    : {
        'no-way': 'out, and nothing on record brings it back',
        'way-unsaid': 'out: machine or replace, as said below',
        'cannot-tell': 'cannot be told yet',
        'not-read': 'not all read yet',
        'not-judged': 'nothing judged on it',
        out: '',
        plan: '',
        partner: '',
        in: '',
        'expected-cost': '',
      }[because];

/** What the owner decided, in a few words. */
export const decidedWords = ({ decided }: Proposal): string | undefined =>
  decided && `${DONE[decided.body.decision]}${sized(decided.body.size)}`;

const listed = (judgements: readonly Assessed[], most = 4): string => {
  const names = judgements.map(judgedName);
  return `${names.slice(0, most).join('; ')}${names.length > most ? ` and ${names.length - most} more` : ''}`;
};

/** Why, in a sentence that could stand in the book as the reason. */
export function reasonWords(proposal: Proposal): string {
  const { because, out, undecided, unread, inside, partner, chosen, cost, decision, currency } = proposal;
  const { left } = proposal;
  const rest = left.length > 0 && chosen.length > 0 ? ` Nothing on record settles ${listed(left)}.` : '';
  const settled = undecided.filter((one) => chosen.some(({ settles }) => settles.includes(one)));
  const also = settled.length > 0 ? ` It settles as well what cannot be told: ${listed(settled)}.` : '';
  const by = chosen.length > 0 ? ` By ${chosen.map(({ name }) => name).join(' and ')}.` : '';
  switch (because) {
    case 'out':
      return `${listed(out)} ${out.length === 1 ? 'is' : 'are'} out.${by}${also}${rest}`;
    case 'plan':
      return `The plan settles by it ${listed(undecided)}.${by}${rest}`;
    case 'no-way':
      return `${listed(out)} ${out.length === 1 ? 'is' : 'are'} out, and no offer or supply on record brings it back.`;
    case 'way-unsaid':
      return `${listed(out)} ${out.length === 1 ? 'is' : 'are'} out.${by} The offer does not say whether it machines or replaces.`;
    case 'partner':
      return `${partner!.part.name} goes to ${partner!.size}: what runs with it has to be of that size.${by}${chosen.length === 0 ? ` Nothing on record brings it in ${partner!.size}.` : ''}`;
    case 'in':
      return `Everything judged on it is in (${inside.length} ${inside.length === 1 ? 'verdict' : 'verdicts'}).`;
    case 'expected-cost':
      return `${listed(undecided)} cannot be told; ${decision === 'reuse' ? 'using it again' : 'doing it now'} costs less in expectation${cost ? ` (${about(Math.min(cost.reuse ?? 0, cost.price), currency)} against ${about(Math.max(cost.reuse ?? 0, cost.price), currency)})` : ''}.`;
    case 'cannot-tell':
      return `${listed(undecided)} cannot be told.`;
    case 'not-read':
      return `Not read yet: ${listed(unread)}.`;
    case 'not-judged':
      return 'The sheet gives no limits for it, or nothing was read.';
  }
}

/** `Reusing Valve spring 5 costs 183 in expectation if …: 97 % × (6 h × 30 + 9). Replacing it now costs 9.` */
export function reuseWords(
  name: string,
  cost: ReuseCost,
  { chosen, currency }: Pick<Proposal, 'chosen' | 'currency'>,
): string[] {
  const { chanceOut, hours, rate, price, reuse, evenRate, covers, judgement } = cost;
  const ways = new Set(chosen.map(({ decision }) => decision));
  const doing = ways.has('machine') ? 'Machining it' : ways.has('replace') ? 'Replacing it' : 'Doing it';
  const opened = covers.map((cover) => `${cover.name} ${cover.reopen_hours} h`).join(', ');
  const hidden = hours > 0 ? `, behind ${opened}` : ', which no cover hides';
  const what = `The chance that it is out, ${chance(chanceOut)}, is that of ${judgedName(judgement)} by its readings${hidden}.`;
  const unknown = 'The chance of failing in service is not known and not in it.';
  if (reuse === undefined)
    return [
      evenRate === undefined
        ? `Reusing ${name} risks ${money(price, currency)} and the work again with ${chance(chanceOut)}; ${doing.toLowerCase()} now costs ${money(price, currency)}.`
        : `Reusing ${name} costs ${chance(chanceOut)} × (${hours} h of work + ${money(price, currency)}) in expectation if whatever is out has to be opened again; ${doing.toLowerCase()} now costs ${money(price, currency)}, which is cheaper once an hour is worth ${evenRate < 1 ? 'anything' : `more than ${about(evenRate, currency)}`}. Nobody said yet what an hour is worth.`,
      `${what} ${unknown}`,
    ];
  return [
    `Reusing ${name} costs ${about(reuse, currency)} in expectation if whatever is out has to be opened again: ${chance(chanceOut)} × (${hours} h × ${money(rate!, currency)} + ${money(price, currency)}). ${doing} now costs ${money(price, currency)}.`,
    `${what} ${unknown}`,
  ];
}

/** `610, Rebore and pistons`; each with its price. */
export const waysWords = (ways: readonly Way[], { currency }: Pick<Proposal, 'currency'>): string =>
  ways.map(({ name, price }) => `${money(price, currency)}, ${name}`).join('; ');

/** The verdicts it rests on, each with the entries behind it; those that are in only where all is asked for. */
export function evidenceLines(book: Book, proposal: Proposal, whole = false): string[] {
  const numbers = entryNumbers(book);
  const { out, undecided, unread, inside } = proposal;
  const shown = [
    ...out,
    ...(out.length === 0 || whole ? undecided : []),
    ...(whole ? [...inside, ...unread] : []),
  ];
  return shown.map((judgement) =>
    judgement.status === 'missing'
      ? verdictLine(judgement)
      : `${verdictLine(judgement)} (${entriesWords(numbers, judgement.entries)})`,
  );
}

/** The reason for which a proposal is taken: what is out, with its entries. */
export function evidenceWords(book: Book, proposal: Proposal): string {
  const rests = entriesWords(entryNumbers(book), proposal.entries);
  return `As proposed: ${reasonWords(proposal)}${proposal.entries.length > 0 ? ` Rests on ${rests}.` : ''}`;
}

/** What is tapped to take a proposal. */
export function takeWords({ decision, size }: Proposal): string {
  const words = decision ? DECISIONS[decision] : '';
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}${sized(size)}`;
}
