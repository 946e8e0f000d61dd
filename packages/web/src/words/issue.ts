import type { Book } from '@fettle/book';
import type { Issue } from '@fettle/core';

/** The program's issues name what the command line would type; here the page says what to tap. */
const TAPPED: Readonly<Record<string, (issue: Issue) => string>> = {
  'instrument/missing': () => 'Which instrument was it read with? Choose one beside the field.',
  'instrument/unknown': () =>
    'That instrument is not declared in this job. Choose another, or declare it on the sheet.',
  'reading/measurand-missing': () => 'How was it read? Choose one beside the field: the ways differ.',
  'reading/wrong-instrument': ({ got, wanted }) =>
    `${got} does not measure this (${wanted} is wanted). Choose another.`,
  'part/none-fitted': () =>
    'No part is entered here yet, so the reading would belong to nothing. Enter the part first.',
  'part/unknown': () => 'That part has not been entered. Enter it on the sheet, under Parts.',
};

export const issueWords = (issue: Issue): string => TAPPED[issue.code]?.(issue) ?? issue.message;

/** `crank.main-journal` as the bench calls it. */
export const nameIn = (book: Book, id: string): string => book.characteristics.get(id)?.name ?? id;

/** How a part is called at a characteristic: `Crankshaft`. */
export const positionName = (book: Book, position: string): string =>
  book.sheet?.positions.find(({ id }) => id === position)?.name ?? position;
