import type { Assessed, Further } from '@fettle/book';
import {
  decidingLimits,
  furtherWords,
  lineOf,
  meanWords,
  moveWords,
  nameOf,
  railOf,
  statusWords,
  valueWords,
} from './judgement.ts';
import { wrapped } from './table.ts';

const INDENT = ' '.repeat(15);

const below = (text: string): string[] => wrapped(text, 93, '  ').map((line) => `${INDENT}${line}`);

/** A judgement in full: the verdict first, then what it rests on, then what to do. */
export function judgementLines(judgement: Assessed, rail = true, further?: Further): string[] {
  const line = lineOf(judgement);
  const mean = meanWords(judgement);
  const drawn = rail ? railOf(judgement) : undefined;
  return [
    `${statusWords(judgement).padEnd(14)} ${judgement.characteristic.name}  [${nameOf(judgement)}${line === '' ? '' : `, ${line}`}]`,
    `               ${[valueWords(judgement), decidingLimits(judgement)].filter((part) => part !== '').join('   ')}`,
    ...(drawn === undefined ? [] : [`               ${drawn}`]),
    ...(mean === undefined ? [] : [`               ${mean}`]),
    ...judgement.cautions.flatMap(({ message }) => below(`caution: ${message}`)),
    ...(judgement.next ? below(`next: ${moveWords(judgement, judgement.next)}`) : []),
    ...(further ? furtherWords(judgement, further).flatMap(below) : []),
  ];
}
