import {
  asFittedNow,
  assessment,
  type Book,
  placeText,
  type SlipComponent,
  slipOf,
  slipWords,
} from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { whenWords } from '../words/entry.ts';

interface Printed {
  readonly printedAt: string;
  /** The part it is for; every part decided to be machined when absent. */
  readonly component?: string;
}

/** Heads under which somebody ticks off what was done. */
const TICKED: ReadonlySet<string> = new Set(['Open and plug', 'Wash', 'Prove clean', 'Send back with it']);

/** The machine-shop slip as plain JSON of texts. */
export function slipPages(book: Book, { printedAt, component }: Printed) {
  const { judgements } = assessment(book, asFittedNow(book), CATALOGUE);
  const components = slipOf(book, judgements, CATALOGUE).filter(
    ({ part }) => component === undefined || part.id === component,
  );
  return {
    title: book.opened?.body.title ?? book.sheet?.title ?? 'A job',
    job: book.job,
    printed: whenWords(printedAt),
    components: components.map((one) => componentPage(book, one)),
  };
}

const componentPage = (book: Book, component: SlipComponent) => ({
  name: component.part.name,
  size: component.disposition.body.size ?? '',
  ordered: slipWords.orderedWords(book, component),
  standing: slipWords.standingWords(component),
  back: component.back !== undefined,
  lines: component.lines.map((line) => ({
    name: slipWords.lineName(line),
    wanted: slipWords.wantedWords(line),
    suits: slipWords.suitsWords(line),
    found: slipWords.foundWords(line),
    places: line.found.length > 1 ? line.found.map(({ place }) => placeText(place)) : [],
    returned: slipWords.returnedWords(line).map((words, i) => ({
      words,
      status: line.returned[i]?.verdict ?? 'missing',
    })),
  })),
  practice: slipWords
    .practiceParts(component)
    .filter(([, lines]) => lines.length > 0)
    .map(([head, lines]) => ({ head, lines, tick: TICKED.has(head) })),
  source: slipWords.PRACTICE_SOURCE,
});
