import { type Basket, type Book, basketWords, moneyWords } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { heading, table, wrapped } from './table.ts';

const WIDTH = 106;
const set = (text: string, indent = '  '): string[] =>
  text === '' ? [] : wrapped(text, WIDTH - indent.length, '  ').map((line) => indent + line);

/** The basket, what it is for, what it leaves over, and what else would have cost. */
export function basketLines(book: Book, basket: Basket, because: Issue | undefined): string[] {
  const { needs, lines, carriage } = basket;
  const open = needs.filter(({ count }) => count > 0);
  const had = needs.filter(({ count }) => count === 0);
  const others = basketWords.alternativePrices(basket);
  return [
    'The cheapest basket that covers what was decided, planned and wanted',
    ...(because ? set(because.message) : []),
    ...heading('Needed'),
    ...(open.length === 0
      ? ['  Nothing: nothing is decided to be replaced or machined, planned or wanted.']
      : []),
    ...table(
      open
        .filter((need) => !basketWords.isPlanOnly(need))
        .map((need) => [basketWords.needWords(need), basketWords.needReasons(book, need)]),
      '  ',
    ),
    ...set(basketWords.planNeedsWords(open)),
    ...(had.length > 0 ? set(`On order or here: ${had.map((need) => need.name).join(', ')}.`) : []),
    ...heading('To buy'),
    ...lines.flatMap((line) => [
      `  ${moneyWords.money(line.price * line.count, basket.currency).padStart(10)}  ${basketWords.countWords(line.count, line.name)}`,
      ...set(
        [...basketWords.lineDetails(line), basketWords.forWords(line)].filter((one) => one !== '').join(', '),
        '          ',
      ),
    ]),
    ...carriage.map(
      ({ supplier, charge }) =>
        `  ${moneyWords.money(charge, basket.currency).padStart(10)}  Carriage of ${supplier}`,
    ),
    ...set(basketWords.sumWords(basket)),
    ...(basket.currency === undefined ? set(moneyWords.NO_CURRENCY) : []),
    ...set(basketWords.proofWords(basket)),
    ...basketWords.gapWords(basket).flatMap((line) => set(line)),
    ...(others.length > 0
      ? [...heading('What else would cost'), ...others.flatMap(({ words }) => set(words))]
      : []),
    '',
    ...set(
      'New parts are measured too: what arrives stays "not measured" until it is read. Enter what you buy with "fettle order --supply ID".',
      '',
    ),
  ];
}
