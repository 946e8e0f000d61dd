import {
  type Assessed,
  type Book,
  type Gate,
  type Status,
  type TorqueAssessment,
  unawaitedWords,
} from '@fettle/book';
import { placeWords } from '../words/entry.ts';
import { moveWords } from '../words/move.ts';
import { bandWords, limitWords, valueWords } from '../words/quantity.ts';
import { lineName } from './line-names.ts';
import { unmeasured } from './unmeasured.ts';

const isWanted = ({ status, characteristic }: Assessed): boolean =>
  status !== 'missing' || characteristic.optional !== true;

const standingOut = (book: Book) => (judgement: Assessed) => {
  const { characteristic, operand, governing, verdicts, sight } = judgement;
  const verdict = governing && verdicts[governing];
  const where = judgement.worstAt ?? judgement.place;
  return {
    line: lineName(book, characteristic),
    name: characteristic.name,
    place: placeWords(where, characteristic.places),
    known: sight
      ? sight.body.found
      : [valueWords(characteristic, operand), bandWords(characteristic, operand).replace(/, k.*/, '')]
          .filter((x) => x !== '')
          .join(' '),
    limits: sight
      ? `wanted: ${characteristic.wanted ?? 'not said'}`
      : verdict
        ? `${limitWords(characteristic, verdict.limits)} (${verdict.set})`
        : '',
    next: judgement.next ? moveWords(judgement, judgement.next) : '',
  };
};

/** The job on one page: how many of each verdict, what stands out, how the covers stand. */
export function summaryPage(
  book: Book,
  judgements: readonly Assessed[],
  gates: readonly Gate[],
  torques: readonly TorqueAssessment[],
) {
  const of = (status: Status) => judgements.filter((one) => one.status === status && isWanted(one));
  const count = (status: Status): string => String(of(status).length);
  const optional = judgements.filter((one) => one.status === 'missing' && !isWanted(one)).length;
  return {
    characteristics: String(book.characteristics.size),
    judged: String(judgements.length),
    counts: {
      in: count('in'),
      out: count('out'),
      cannot_tell: count('cannot-tell'),
      missing: count('missing'),
      no_limits: count('no-limits'),
    },
    unawaited: unawaitedWords(optional),
    struck: String(book.readings.filter(({ standing }) => standing === 'struck').length),
    readings: String(book.readings.length),
    unread: String(unmeasured(book, judgements).length),
    out: of('out').map(standingOut(book)),
    cannot_tell: of('cannot-tell').map(standingOut(book)),
    refused: torques
      .filter(({ advice }) => advice.ok && advice.value.advice === 'refused')
      .map(({ fastener }) => `${fastener.line ? `${fastener.line} ` : ''}${fastener.name}`),
    covers: gates.map(({ cover, state, closed, reasons, passed }) => ({
      name: cover.name,
      state: closed ? 'closed' : state,
      passed: passed !== undefined,
      reasons: String(reasons.length),
    })),
  };
}
