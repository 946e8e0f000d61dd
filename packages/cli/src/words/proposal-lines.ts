import { type Book, decidingWords, type Proposal } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { moveWords, nameOf } from './judgement.ts';
import { heading, wrapped } from './table.ts';

const WIDTH = 106;
const set = (text: string, indent = '  '): string[] =>
  wrapped(text, WIDTH - indent.length, '  ').map((line) => indent + line);

/** A proposal with all it rests on, for a program. */
export const proposalJson = (proposal: Proposal): Readonly<Record<string, unknown>> => ({
  part: proposal.part.id,
  name: proposal.part.name,
  position: proposal.position,
  proposed: proposal.decision,
  size: proposal.size,
  because: proposal.because,
  why: decidingWords.reasonWords(proposal),
  out: proposal.out.map(nameOf),
  cannot_tell: proposal.undecided.map(nameOf),
  not_read: proposal.unread.map(nameOf),
  in: proposal.inside.map(nameOf),
  by: proposal.chosen.map(({ id }) => id),
  price: proposal.price,
  reuse: proposal.cost && {
    chance_out: proposal.cost.chanceOut,
    reopen_hours: proposal.cost.hours,
    hour: proposal.cost.rate,
    price: proposal.cost.price,
    expected_cost: proposal.cost.reuse,
    even_at_hour: proposal.cost.evenRate,
  },
  entries: proposal.entries,
  decided: proposal.decided && {
    decision: proposal.decided.body.decision,
    size: proposal.decided.body.size,
    why: proposal.decided.body.why,
    who: proposal.decided.entry.who,
    entry: proposal.decided.entry.id,
    as_proposed: proposal.agrees,
  },
});

/** Proposals one after another: those that ask for something first, then what can be used again, shortly. */
export function proposalLines(
  book: Book,
  proposals: readonly Proposal[],
  because: Issue | undefined,
  whole: boolean,
): string[] {
  if (proposals.length === 0)
    return ['Nothing is open: every part is decided as proposed, or none is fitted.'];
  const plain = proposals.filter((one) => !whole && isPlain(one));
  const told = proposals.filter((one) => whole || !isPlain(one));
  return [
    ...(because ? set(because.message, '') : []),
    ...told.flatMap((one) => toldWhole(book, one, whole)),
    ...(plain.length > 0
      ? [
          ...heading('Used again or not judged'),
          ...plain.map(
            (one) =>
              `  ${one.part.name} (${one.part.id}): ${decidingWords.proposedWords(one)}${decidedTail(one)}`,
          ),
        ]
      : []),
    '',
    ...set(
      'A proposal is no decision. Take it with "fettle decide JOB PART --as-proposed", or decide otherwise and say why. "fettle decide JOB PART" shows all it rests on.',
      '',
    ),
  ];
}

const isPlain = ({ because }: Proposal): boolean => ['in', 'not-judged', 'not-read'].includes(because);

const decidedTail = (proposal: Proposal): string => {
  const words = decidingWords.decidedWords(proposal);
  if (words === undefined) return '';
  return ` · decided: ${words}${proposal.agrees === false && proposal.decision ? ', otherwise than proposed' : ''}`;
};

function toldWhole(book: Book, proposal: Proposal, whole: boolean): string[] {
  const { part, cost, undecided, chosen, price, outWith, ways } = proposal;
  const others = ways.filter((way) => !chosen.includes(way));
  return [
    ...heading(`${part.name} (${part.id}): ${decidingWords.proposedWords(proposal)}${decidedTail(proposal)}`),
    ...set(decidingWords.reasonWords(proposal)),
    ...decidingWords.evidenceLines(book, proposal, whole).flatMap((line) => set(line, '    ')),
    ...(proposal.out.length === 0 || whole ? undecided : []).flatMap((one) =>
      one.next ? set(`Next: ${moveWords(one, one.next)}`, '    ') : [],
    ),
    ...outWith.flatMap(({ judgement, with: partners }) =>
      set(
        `Out together with ${partners.map((id) => book.parts.get(id)?.name ?? id).join(', ')}: ${decidingWords.judgedName(judgement)}.`,
        '    ',
      ),
    ),
    ...(price === undefined ? [] : [`  Price ${decidingWords.waysWords(chosen, proposal)}`]),
    ...(whole && others.length > 0
      ? set(`Also on record: ${decidingWords.waysWords(others, proposal)}`)
      : []),
    ...(cost ? decidingWords.reuseWords(part.name, cost, proposal).flatMap((line) => set(line)) : []),
  ];
}
