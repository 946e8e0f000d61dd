import type { Book } from '../fold/book.ts';
import { placeText } from '../sheet/places.ts';
import type { FinishedSize } from '../slip/finished-size.ts';
import type { SlipComponent, SlipLine } from '../slip/slip.ts';
import { entriesWords, entryNumbers } from './deciding.ts';
import { bare, limitWords, operandWords, shown } from './quantity.ts';

/** `Bore 1` where it is for one place, `Main journal, everywhere` else. */
export function lineName({ characteristic, at }: SlipLine): string {
  const place = placeText(at);
  return place === '' ? characteristic.name : `${characteristic.name} ${place}`;
}

/** What the shop is asked for: `2.4890 to 2.4900 in`. */
export function wantedWords({ characteristic, wanted, by, stays }: SlipLine): string {
  const aim = wanted.target === undefined ? '' : `, aim at ${shown(characteristic, wanted.target)}`;
  const limits = `${stays ? 'is, and stays within ' : ''}${limitWords(characteristic, wanted)}`;
  return by === 'wear'
    ? `as near none as can be; the sheet gives none for new, for wear ${limitWords(characteristic, wanted)}`
    : `${limits}${aim}`;
}

/** To which part, and where that leaves the clearance. */
export function suitsWords({ suits }: SlipLine): string {
  if (!suits) return '';
  const parts = suits.suits.map(({ part, of, q }) => `${part.name}, which measures ${shown(of, q.value)}`);
  const clearance = suits.clearance.limits?.new;
  const target = clearance?.target ?? [clearance?.lower, clearance?.upper].filter(Boolean).join(' to ');
  return `to suit ${parts.join(' and ')}, with ${suits.clearance.name.toLowerCase()} ${target}${provenWords(suits)}`;
}

/** What of it can be called in on arrival; a shop that works to the very limits leaves a verdict that cannot be told. */
export function provenWords({ characteristic, proven }: FinishedSize): string {
  if (!proven) return '';
  return proven.possible
    ? `; proven on arrival at ${limitWords(characteristic, proven)}, by ${proven.by}`
    : `; by ${proven.by} no size can be proven on arrival: its doubt is wider than the limits`;
}

/** As it was: the range over all places. */
export function foundWords({ characteristic, found }: SlipLine): string {
  const values = found.flatMap(({ members, operand }) =>
    (members.length > 0 ? members.map(({ known }) => known.operand) : [operand]).flatMap((one) =>
      one.kind === 'value' ? [one.q.value] : [],
    ),
  );
  if (values.length === 0) return 'not measured';
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const low = bare(characteristic, least);
  const words = shown(characteristic, most);
  return low === bare(characteristic, most) ? words : `${low} to ${words}`;
}

const VERDICT = { in: 'in', out: 'OUT', 'cannot-tell': 'cannot be told' } as const;

/** As measured on arrival, place by place, by the limits for new parts. */
export const returnedWords = (line: SlipLine): string[] =>
  line.returned.map(({ judgement, verdict }) => {
    const at = placeText(judgement.place);
    const where = at === '' ? '' : `${at}: `;
    if (judgement.status === 'missing') return `${where}not measured yet`;
    return `${where}${operandWords(judgement.characteristic, judgement.operand)}${verdict ? `, ${VERDICT[verdict]}` : ''}`;
  });

/** Where the component stands. */
export function standingWords({ back, measured, inside, lines }: SlipComponent): string {
  if (!back) return 'Not back yet: the boxes are for the shop, and it is measured here again when it comes.';
  const all = lines.reduce((sum, { returned }) => sum + returned.length, 0);
  if (measured === 0) return `Back (${back.what}), and not measured: what the shop wrote is no reading.`;
  return `Back (${back.what}): ${measured} of ${all} measured on arrival, ${inside} as wanted.`;
}

/** What was decided, why and by whom. */
export function orderedWords(book: Book, { disposition }: SlipComponent): string {
  const { entry, body } = disposition;
  return `${body.size === undefined ? 'To the sizes below' : `To ${body.size}`}. ${body.why} (${entry.who}, ${entriesWords(entryNumbers(book), [entry.id])})`;
}

/** The heads under which practice stands, in the order of the work. */
export const practiceParts = ({
  practice,
}: SlipComponent): readonly (readonly [string, readonly string[]])[] =>
  [
    ['Finish', practice.finish],
    ['Open and plug', practice.plug],
    ['Wash', practice.wash],
    ['Prove clean', practice.prove],
    ['Send back with it', practice.back],
    ['Beware', practice.cautions],
  ] as const;

export const PRACTICE_SOURCE =
  'Common practice, no source; the shop’s own rules and the maker’s sheet go before it.';

/** The whole slip as plain text, to be mailed or read out. */
export function slipText(book: Book, components: readonly SlipComponent[]): string[] {
  return components.flatMap((component, i) => [
    ...(i > 0 ? ['', ''] : []),
    `${component.part.name.toUpperCase()} (${component.part.id})`,
    orderedWords(book, component),
    standingWords(component),
    '',
    ...component.lines.flatMap((line) => [
      `* ${lineName(line)}: ${wantedWords(line)}`,
      ...(line.suits ? [`    ${suitsWords(line)}`] : []),
      `    found ${foundWords(line)}${component.back ? '' : '; as returned: ______________'}`,
      ...(component.back ? returnedWords(line).map((words) => `    returned ${words}`) : []),
    ]),
    ...practiceParts(component).flatMap(([head, lines]) =>
      lines.length === 0 ? [] : ['', `${head}:`, ...lines.map((line) => `  - ${line}`)],
    ),
    '',
    PRACTICE_SOURCE,
  ]);
}
