import type { Book, Part } from '../fold/book.ts';
import type { Belonging, Tag } from '../tags/tag.ts';

// The same words on a tag, at the bench and in the terminal.

/** `ROD 2 · CAP` of `Rod 2, cap`: what is read at arm's length. */
export const plainName = ({ name }: Part): string =>
  name
    .split(/\s*[,;]\s*/)
    .join(' · ')
    .toUpperCase();

/** How it is known where a part belongs is said with it: a place it only stands in is no home. */
export const belongsWords = ({ by, name }: Belonging): string =>
  ({ marked: `home: ${name}`, fitted: `now in: ${name}`, found: `came from: ${name}` })[by];

/** What the arrow on a tag points to: `FRONT` of `arrow to the front`; all the words where they name no side. */
export const arrowWord = (way: string): string =>
  (/\b(?:to|towards?|facing)\s+(?:the\s+)?(\S.*)$/i.exec(way)?.[1] ?? way).toUpperCase();

export const NO_HOME = 'no home entered';

export const partnersWords = ({ partners }: Tag): string =>
  partners.length === 0 ? '' : `with ${partners.map(({ name }) => name).join(', ')}`;

/** Everything a tag says, line by line. */
export function tagLines(tag: Tag): string[] {
  const { part, short, belongs, way, mark } = tag;
  return [
    `${plainName(part)}  [${short}]  ${part.id}`,
    belongs ? belongsWords(belongs) : NO_HOME,
    ...(way === undefined ? [] : [`way round: ${way}`]),
    ...(mark === undefined ? [] : [`marked: ${mark}`]),
    ...(tag.partners.length === 0 ? [] : [partnersWords(tag)]),
  ];
}

/** `machined, .010 under: mains and rods ground`. */
export function stateWords({ current, states }: Part): string {
  const size = current.size === undefined ? '' : `, ${current.size}`;
  return `${current.condition}${size}${states.length > 1 ? `: ${current.what}` : ''}`;
}

/** What a part is to the job, for whoever has it in the hand. */
export function decidedWords(book: Book, { id }: Part): string {
  const decision = book.dispositions.get(id)?.body;
  return decision === undefined
    ? 'nothing decided'
    : `to ${decision.decision}${decision.size === undefined ? '' : ` to ${decision.size}`}: ${decision.why}`;
}
