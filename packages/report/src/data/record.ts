import {
  type Assessed,
  type Assessment,
  asFittedNow,
  asRead,
  type Book,
  type Characteristic,
  furtherMoves,
  leavesWords,
  type Member,
  type PartState,
  type ReadingOnRecord,
  type Reckoning,
  relationWords,
  type SightOnRecord,
  sourcesOf,
  stateNamed,
  temperatureNote,
} from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { placeWords, whenWords } from '../words/entry.ts';
import { furtherWords, moveWords } from '../words/move.ts';
import { printedQuantity, rangeWords } from '../words/printed-quantity.ts';
import { bandWords, limitWords, valueWords } from '../words/quantity.ts';
import { type SourceWords, sourceWords } from '../words/source.ts';
import { doubtWords } from './doubt.ts';
import { lineName } from './line-names.ts';
import { isReadElsewhere } from './other-states.ts';
import { witnessLines } from './witnesses.ts';

/** `as it came`, `new, .030 over`, `ground, machined, .010 under` */
export const conditionWords = ({ what, condition, size }: PartState): string =>
  [
    what,
    ...(what.includes(condition) || what === 'as it came' ? [] : [condition]),
    ...(size === undefined ? [] : [size]),
  ].join(', ');

/** One part in one state, as a reading names it. */
function stateWords(book: Book, id: string | undefined): string {
  if (id === undefined) return '';
  const found = stateNamed(book, id);
  if (!found) return 'a state not here';
  const part = book.parts.get(found.part);
  return `${part?.name ?? found.part}: ${conditionWords(found.state)}`;
}

const SETS = ['new', 'wear'] as const;

/** Both limit sets of a characteristic with their sources. */
function limitLines(book: Book, characteristic: Characteristic, judgements: readonly Assessed[]) {
  return SETS.flatMap((set) => {
    const printed = characteristic.limits?.[set];
    if (!printed) return [];
    const moved = judgements.flatMap(({ verdicts }) => verdicts[set]?.limits ?? [])[0];
    const limits = moved ? limitWords(characteristic, moved) : rangeWords(printed.lower, printed.upper);
    return [
      {
        set,
        limits: `${limits}${printed.target === undefined ? '' : `, target ${printedQuantity(printed.target)}`}`,
        ...boundSources(book, characteristic, set),
      },
    ];
  });
}

/** One source as it is; several each with the bounds it gives. */
function boundSources(book: Book, characteristic: Characteristic, set: 'new' | 'wear'): SourceWords {
  const all = sourcesOf(characteristic, set);
  const words = all.map(({ bounds, source }) => ({ bounds, ...sourceWords(book, source) }));
  return {
    source: words
      .map(({ bounds, source }) => (all.length > 1 ? `${bounds.join(' and ')}: ${source}` : source))
      .join('; '),
    trust: [...new Set(words.map(({ trust }) => trust))].filter((trust) => trust !== '').join(', '),
  };
}

function verdictsOf({ verdicts }: Pick<Member, 'verdicts'>) {
  return { new: verdicts.new?.verdict ?? '', wear: verdicts.wear?.verdict ?? '' };
}

/** How much of what the reading leaves open lies within the limits that decide, where that is not plain. */
function insideWords({ governing, verdicts, operand }: Assessed): string {
  const p = governing && verdicts[governing]?.probabilityIn;
  if (p === undefined || operand.kind !== 'value' || p < 0.015 || p > 0.985) return '';
  return `${(100 * p).toFixed(0)} % inside`;
}

/** What is judged, with both verdicts. */
function judgedLine(book: Book, judgement: Assessed, reckoning: Reckoning) {
  const { characteristic, operand, status, mean } = judgement;
  const seen = judgement.sight;
  const further = furtherMoves(reckoning, judgement);
  const cold = asRead(book, asFittedNow(book), CATALOGUE, judgement);
  const meanWords =
    mean && mean.verdict !== status && status !== 'missing'
      ? `The mean, ${valueWords(characteristic, mean.operand)}, would say ${mean.verdict.replace('-', ' ')}.`
      : '';
  return {
    place: placeWords(judgement.place, characteristic.places),
    states: judgement.states.map(({ id }) => stateWords(book, id)),
    known: seen
      ? seen.body.found
      : `${valueWords(characteristic, operand)}${judgement.worstAt && operand.kind !== 'missing' ? ` at ${placeWords(judgement.worstAt, characteristic.places)}` : ''}`,
    band: bandWords(characteristic, operand),
    ...verdictsOf(judgement),
    governing: judgement.governing ?? '',
    status,
    inside: insideWords(judgement),
    doubt: judgement.governing === undefined ? '' : doubtWords(book, characteristic.id, operand),
    witnesses: witnessLines(judgement),
    notes: [
      meanWords,
      cold ? temperatureNote(judgement, cold) : '',
      ...judgement.cautions.map(({ message }) => message),
      judgement.next && judgement.next.move !== 'measure' && judgement.next.move !== 'look'
        ? `Next: ${moveWords(judgement, judgement.next)}`
        : '',
      ...(further ? furtherWords(judgement, further) : []),
    ].filter((note) => note !== ''),
    missing: judgement.missing.length > 0 && status !== 'missing' ? 'not read everywhere' : '',
  };
}

const saidIn = ({ body }: ReadingOnRecord): string =>
  body.value === undefined ? leavesWords.leafAnswerWords(body, printedQuantity) : printedQuantity(body.value);

/** A reading as it was said, struck or not. */
function readingLine(book: Book, reading: ReadingOnRecord, pages: ReadonlyMap<string, string>) {
  const { entry, body, standing, correction } = reading;
  const characteristic = book.characteristics.get(body.characteristic);
  const instrument = book.instruments.get(body.instrument);
  const { asked, temperature } = body;
  const strike = strikeOf(book, entry.id);
  const measurand =
    body.measurand !== undefined && body.measurand !== characteristic?.measurand
      ? `taken ${body.measurand.replaceAll('-', ' ')}`
      : '';
  return {
    page: pages.get(entry.id) ?? '',
    place: placeWords(body.place, characteristic?.places),
    said: saidIn(reading),
    instrument: instrument?.body.name ?? body.instrument,
    u: instrument ? `U ${printedQuantity(instrument.body.uncertainty.expanded)}` : 'not declared',
    who: entry.who,
    when: whenWords(entry.at),
    part: stateWords(book, body.state),
    struck: standing === 'struck',
    remarks: [
      measurand,
      temperature?.part === undefined
        ? ''
        : `part at ${printedQuantity(temperature.part)}${temperature.instrument === undefined ? '' : `, instrument at ${printedQuantity(temperature.instrument)}`}`,
      asked ? `first said ${asked.first_said}; asked: ${asked.question}` : '',
      body.note ?? '',
      strike ? `struck by ${strike.who}: ${String(strike.body.why)}` : '',
      correction
        ? `corrected by ${printedQuantity(correction.add)}, ± ${printedQuantity(correction.doubt)}: ${correction.why}`
        : '',
      standing === 'counts' || standing === 'struck' ? '' : `not judged: ${standing.replaceAll('-', ' ')}`,
    ].filter((remark) => remark !== ''),
  };
}

function sightLine(book: Book, { entry, body, standing }: SightOnRecord, pages: ReadonlyMap<string, string>) {
  const strike = strikeOf(book, entry.id);
  const characteristic = book.characteristics.get(body.characteristic);
  return {
    page: pages.get(entry.id) ?? '',
    place: placeWords(body.place, characteristic?.places),
    said: `${body.found} (${body.as_wanted ? 'as wanted' : 'not as wanted'})`,
    instrument: 'by eye',
    u: '',
    who: entry.who,
    when: whenWords(entry.at),
    part: stateWords(book, body.state),
    struck: standing === 'struck',
    remarks: [body.note ?? '', strike ? `struck by ${strike.who}: ${String(strike.body.why)}` : ''].filter(
      (remark) => remark !== '',
    ),
  };
}

/** The strike that took an entry out, if one stands. */
const strikeOf = (book: Book, id: string) =>
  book.struck.has(id)
    ? book.entries.find(
        ({ kind, body, id: own }) => kind === 'strike' && body.entry === id && !book.struck.has(own),
      )
    : undefined;

/** Nothing at all is known of it. */
const isUntouched = ({ status, operand, entries }: Assessed): boolean =>
  status === 'missing' && operand.kind === 'missing' && entries.length === 0;

/** The places of which nothing is known, and what that waits for, in one line. */
function untouchedWords(
  book: Book,
  characteristic: Characteristic,
  judgements: readonly Assessed[],
): string | null {
  const untouched = judgements.filter(isUntouched);
  if (untouched.length === 0) return null;
  const places = untouched
    .map(({ place }) => placeWords(place, characteristic.places))
    .filter((at) => at !== '');
  const waits = new Set(
    untouched
      .flatMap(({ missing }) => missing.map((one) => one.characteristic))
      .filter((id) => id !== characteristic.id),
  );
  const names = [...new Set([...waits].map((id) => book.characteristics.get(id)?.name ?? id))];
  const where =
    places.length === 0
      ? ''
      : untouched.length === judgements.length
        ? ' anywhere'
        : ` at ${places.join(', ')}`;
  const all = places.length > 1 && where === ' anywhere' ? ` (${places.length} places)` : '';
  const why = names.length === 0 ? '' : `; it waits for ${names.join(', ')}`;
  const fitted = isReadElsewhere(book, judgements, characteristic.id) ? ' on the parts fitted' : '';
  return `${where}${all}${fitted}${why}`.replace(/^[ ;]+/, '');
}

type ReadingLine = ReturnType<typeof readingLine>;

/** The readings, with what all of them share said once above them. */
function readingTable(lines: readonly ReadingLine[]) {
  const shared = (of: (line: ReadingLine) => string): string => {
    const [first, ...others] = lines.map(of);
    return first !== undefined && others.length > 0 && others.every((other) => other === first) ? first : '';
  };
  const remarks = shared(({ remarks }) => remarks.join('; '));
  const own = (line: ReadingLine): ReadingLine => (remarks === '' ? line : { ...line, remarks: [] });
  return {
    readings: lines.map(own),
    shared: {
      with: shared(({ instrument, u }) => [instrument, u].filter((x) => x !== '').join(', ')),
      part: shared(({ part }) => part),
      who: shared(({ who }) => who),
      remarks,
    },
  };
}

/** Said once for all places where it is the same at all of them. */
function sharedDoubt(lines: readonly ReturnType<typeof judgedLine>[]) {
  const words = [...new Set(lines.map(({ doubt }) => doubt).filter((doubt) => doubt !== ''))];
  const [only] = words;
  return words.length === 1 && only !== undefined
    ? { doubt: only, judgements: lines.map((line) => ({ ...line, doubt: '' })) }
    : { doubt: '', judgements: lines };
}

/** One characteristic, accounted for whether it was read or not. */
function characteristicRecord(
  book: Book,
  characteristic: Characteristic,
  judgements: readonly Assessed[],
  pages: ReadonlyMap<string, string>,
  reckoning: Reckoning,
) {
  const { reduce } = characteristic;
  const limits = limitLines(book, characteristic, judgements);
  return {
    line: lineName(book, characteristic),
    name: characteristic.name,
    id: characteristic.id,
    taken: characteristic.taken ?? '',
    wanted: characteristic.wanted ?? '',
    formula:
      characteristic.relation === undefined
        ? ''
        : relationWords(characteristic.relation, (id) => book.characteristics.get(id)?.name ?? id),
    judged: reduce ? `${reduce.by.replace('-', ' ')} over ${reduce.over.join(', ')}` : '',
    note: characteristic.note ?? '',
    no_limits:
      limits.length === 0 && characteristic.kind !== 'seen' ? (characteristic.no_limits ?? 'no limits') : '',
    optional: characteristic.optional === true,
    limits,
    ...sharedDoubt(
      judgements
        .filter((judgement) => !isUntouched(judgement))
        .map((judgement) => judgedLine(book, judgement, reckoning)),
    ),
    untouched: untouchedWords(book, characteristic, judgements),
    ...readingTable([
      ...book.readings
        .filter(({ body }) => body.characteristic === characteristic.id)
        .map((reading) => readingLine(book, reading, pages)),
      ...book.sights
        .filter(({ body }) => body.characteristic === characteristic.id)
        .map((sight) => sightLine(book, sight, pages)),
    ]),
  };
}

/** Every characteristic of the sheet in its order, grouped as the sheet groups them. */
export function recordPages(
  book: Book,
  { judgements, reckoning }: Assessment,
  pages: ReadonlyMap<string, string>,
) {
  const byId = new Map<string, Assessed[]>();
  for (const judgement of judgements) {
    const { id } = judgement.characteristic;
    byId.set(id, [...(byId.get(id) ?? []), judgement]);
  }
  const groups = new Map<string, ReturnType<typeof characteristicRecord>[]>();
  for (const characteristic of book.characteristics.values()) {
    const group = characteristic.group ?? '';
    const record = characteristicRecord(
      book,
      characteristic,
      byId.get(characteristic.id) ?? [],
      pages,
      reckoning,
    );
    groups.set(group, [...(groups.get(group) ?? []), record]);
  }
  return [...groups].map(([name, records]) => ({ name, records }));
}
