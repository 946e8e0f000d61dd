import {
  type Assessment,
  type Basket,
  type Book,
  basketOf,
  basketWords,
  decidingWords,
  moneyWords,
  type Proposal,
  plannedRepairs,
  proposalsOf,
  timeLineOf,
  timelineWords,
} from '@fettle/book';
import { timeLineSvg } from '@fettle/draw';
import { printable } from '../printable.ts';
import { TEXT_WIDTH } from './maps.ts';

/** What the verdicts propose for each part, the basket that follows from what was decided, and what the date hangs on. */
/** @param now  when it is printed, Unix time [ms] */
export function decidingPages(book: Book, assessed: Assessment, now: number) {
  const { taken, because } = plannedRepairs(book, assessed, { now });
  const proposals = proposalsOf(book, assessed.judgements, taken);
  const basket = basketOf(book, { taken, now });
  return {
    because: because?.message ?? '',
    proposals: proposals.filter((one) => !isSilent(one)).map((one) => proposalRow(book, one)),
    silent: proposals
      .filter(isSilent)
      .map(({ part }) => part.name)
      .join(', '),
    basket: basketRows(book, basket),
    time_line: timeLineRows(book, basket, now),
  };
}

/** Nothing decided, and nothing to say of it but that it was not read or has no limits. */
const isSilent = ({ decided, because }: Proposal): boolean =>
  !decided && (because === 'not-read' || because === 'not-judged');

const proposalRow = (book: Book, one: Proposal) => ({
  part: one.part.name,
  proposed: decidingWords.proposedWords(one),
  decided: decidingWords.decidedWords(one) ?? '',
  differs: one.agrees === false && one.decision !== undefined,
  why: decidingWords.reasonWords(one),
  evidence: decidingWords.evidenceLines(book, one),
  cost: one.cost ? decidingWords.reuseWords(one.part.name, one.cost, one)[0]! : '',
});

const basketRows = (book: Book, basket: Basket) => ({
  said: [
    basketWords.sumWords(basket),
    basketWords.proofWords(basket),
    ...basketWords.gapWords(basket),
  ].filter((one) => one !== ''),
  lines: [
    ...basket.lines.map((line) => ({
      name: basketWords.countWords(line.count, line.name),
      price: moneyWords.money(line.price * line.count, basket.currency),
      details: [...basketWords.lineDetails(line), basketWords.forWords(line)]
        .filter((one) => one !== '')
        .join(', '),
    })),
    ...basket.carriage.map(({ supplier, charge }) => ({
      name: `Carriage of ${supplier}`,
      price: moneyWords.money(charge, basket.currency),
      details: '',
    })),
  ],
  others: basketWords.alternativePrices(basket).map(({ words }) => words),
  orders: book.orders.length,
});

function timeLineRows(book: Book, basket: Basket, now: number) {
  const line = timeLineOf(book, basket, { now });
  const said = [...timelineWords.dateWords(line), timelineWords.criticalWords(line)].filter(
    (one) => one !== '',
  );
  const chart = timelineWords.timeLineChart(line);
  const desc = printable(said.join(' '));
  return {
    said,
    rests_on: line.tasks.length > 0 ? timelineWords.chanceRests(line) : [],
    problems: line.problems.map(({ message }) => message),
    picture:
      chart.rows.length === 0
        ? null
        : {
            alt: desc,
            svg: timeLineSvg(printable(chart), {
              title: 'Tasks over time from today',
              desc,
              width: TEXT_WIDTH,
              profile: 'paper',
              paper: true,
            }),
          },
  };
}
