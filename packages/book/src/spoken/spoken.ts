import { failed, type Issue, type Outcome, ok } from '@fettle/core';
import { leavesSaid } from '../chest/stacked.ts';
import { admittedReading, type ReadingSaid } from '../entering/reading.ts';
import type { Book, ReadingOnRecord } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';
import { type Place, placeText } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { leafAnswerWords } from '../words/leaves.ts';
import { placeInWords } from '../words/position.ts';
import { type Heard, heard } from './heard.ts';
import { type Meant, meantBy, nearness, placesLeft } from './meant.ts';

/** What one phrase comes to. `back` is read back to whoever spoke. */
export type Spoken =
  | { readonly is: 'readings'; readonly readings: readonly SpokenReading[]; readonly back: string }
  | {
      readonly is: 'correction';
      readonly strikes: string;
      readonly reading: SpokenReading;
      readonly back: string;
    }
  | { readonly is: 'strike'; readonly strikes: string; readonly back: string };

export type SpokenReading = Pick<
  ReadingSaid,
  | 'characteristic'
  | 'place'
  | 'value'
  | 'goes'
  | 'stops'
  | 'drags'
  | 'measurand'
  | 'firstSaid'
  | 'instrument'
  | 'part'
>;

export type SpokenEntry =
  | { readonly kind: 'strike'; readonly body: Body<'strike'> }
  | { readonly kind: 'reading'; readonly body: Body<'reading'> };

export interface SpokenIn {
  /** The unit the bench is set to for a characteristic; without one a number needs its unit said. */
  readonly unit?: (characteristic: Characteristic) => string | undefined;
  /** What is being measured now: it is meant where the words would fit several. */
  readonly at?: string;
  /** The reading made last at this bench, which a correction is about. */
  readonly last?: ReadingOnRecord;
}

const issue = (code: string, got: string, wanted: string, message: string): Issue => ({
  code,
  at: 'spoken',
  got,
  wanted,
  message,
});

const CORRECTION =
  /^\s*(?:no|correction|correct(?:\s+(?:that|last))?(?:\s+to)?|make(?:\s+that|\s+it)|sorry)\b[\s,:]*/i;
const STRIKE = /^\s*(?:strike|scratch|undo|forget)(?:\s+(?:that|it|last|the last(?:\s+one)?))?\s*[.!]?\s*$/i;

/**
 * What somebody says at the bench, or types as they would say it: "rod two front 2.1228, 2.1227". Words name the
 * thing and the place, numbers with a point or a unit are what was read. Nothing is guessed: what fits two things
 * alike is asked about, and every number is read back with its place.
 */
export function spoken(book: Book, text: string, within: SpokenIn = {}): Outcome<Spoken> {
  if (STRIKE.test(text)) return struck(book, within);
  if (/\d,\d/.test(text))
    return failed(
      issue(
        'spoken/decimal-comma',
        text,
        'a decimal point',
        'Write numbers with a point, and a space after a comma.',
      ),
    );
  const correction = CORRECTION.exec(text);
  if (correction && within.last) {
    const rest = heard(text.slice(correction[0].length));
    if (rest.length > 0 && rest.every(({ is }) => is === 'number' || is === 'whole'))
      return corrected(book, rest, within);
  }
  return readings(book, heard(text), text, within);
}

/** The readings one phrase makes: none for a strike. */
export const readingsOf = (said: Spoken): readonly SpokenReading[] =>
  said.is === 'readings' ? said.readings : said.is === 'correction' ? [said.reading] : [];

/**
 * The entries one phrase becomes: a strike of what it takes back, then its readings; all of them or none.
 *
 * @param text  the phrase, which the strike gives as its reason
 * @param more  what the surface adds to each reading: the tool, the part, that it is confirmed
 */
export function spokenEntries(
  book: Book,
  said: Spoken,
  text: string,
  more: (reading: SpokenReading) => Partial<ReadingSaid>,
): Outcome<SpokenEntry[]> {
  const entries: SpokenEntry[] =
    said.is === 'readings'
      ? []
      : [{ kind: 'strike', body: { entry: said.strikes, why: `said at the bench: ${text}` } }];
  for (const reading of readingsOf(said)) {
    const body = admittedReading(book, { ...reading, ...more(reading) });
    if (!body.ok) return body;
    entries.push({ kind: 'reading', body: body.value });
  }
  return ok(entries);
}

function struck(book: Book, { last }: SpokenIn): Outcome<Spoken> {
  if (!last) return failed(nothingBefore('strike'));
  return ok({ is: 'strike', strikes: last.entry.id, back: `Struck: ${wordsOfRecord(book, last)}.` });
}

const nothingBefore = (got: string): Issue =>
  issue(
    'spoken/nothing-before',
    got,
    'a reading made before',
    'Nothing was read at this bench yet that could be corrected.',
  );

function corrected(book: Book, rest: readonly Heard[], within: SpokenIn): Outcome<Spoken> {
  const last = within.last!;
  const [one, ...more] = rest;
  const characteristic = book.characteristics.get(last.body.characteristic);
  if (more.length > 0 || !one || !characteristic)
    return failed(
      issue(
        'spoken/several-corrections',
        `${rest.length} numbers`,
        'one number',
        'A correction is about the last reading alone. Say one number, or name the place again.',
      ),
    );
  const unit = 'unit' in one && one.unit !== undefined ? one.unit : unitSaid(last.body.value);
  const value = `${'text' in one ? one.text : ''} ${unit ?? ''}`.trim();
  const reading: SpokenReading = {
    characteristic: last.body.characteristic,
    place: last.body.place ?? {},
    value,
    instrument: last.body.instrument,
    ...(last.body.measurand !== undefined && { measurand: last.body.measurand }),
    ...(last.body.value !== undefined && { firstSaid: last.body.value }),
  };
  return ok({
    is: 'correction',
    strikes: last.entry.id,
    reading,
    back: `${nameAt(characteristic, reading.place)}: ${value}, not ${last.body.value ?? leafAnswerWords(last.body)}.`,
  });
}

const unitSaid = (value: string | undefined): string | undefined => value?.replace(/^[-+.\d\s]+/, '');

function readings(book: Book, all: readonly Heard[], text: string, within: SpokenIn): Outcome<Spoken> {
  const numbers = all.filter((one) => one.is === 'number');
  if (numbers.length === 0)
    return failed(
      issue(
        'spoken/no-number',
        text,
        'a number with a point or a unit',
        'No reading was heard. Say what was measured, where, and then the number with its point or its unit: "rod two front 2.1228".',
      ),
    );
  const meant = thingMeant(book, all, text, within);
  if (!meant.ok) return meant;
  const { characteristic } = meant.value;
  const unit = within.unit?.(characteristic);
  const unitless = numbers.filter((one) => one.unit === undefined);
  if (unitless.length > 0 && unit === undefined && !numbers.some((one) => one.unit !== undefined))
    return failed(
      issue(
        'unit/missing',
        unitless.map((one) => one.text).join(', '),
        characteristic.unit ?? 'a unit',
        `${characteristic.name}: is that ${unitless[0]!.text} ${characteristic.unit ?? ''}? Say the unit once, or set the bench's unit.`,
      ),
    );
  const spokenUnit = numbers.findLast((one) => one.unit !== undefined)?.unit ?? unit!;
  const sized = numbers.map((one) => `${one.text} ${one.unit ?? spokenUnit}`);
  const said = all.some(isAnswer) ? byLeaves(all, sized) : sized.map((value) => ({ value }));
  const places = placesLeft(book, meant.value);
  if (said.length !== places.length)
    return failed(
      issue(
        'spoken/places',
        `${said.length} ${said.length === 1 ? 'reading' : 'readings'} for ${places.length} places`,
        places.map((place) => placeText(place)).join(', '),
        `${nameAt(characteristic, meant.value.place)} has ${places.length} places (${places
          .slice(0, 8)
          .map((place) => placeText(place))
          .join(
            ', ',
          )}${places.length > 8 ? ' …' : ''}), and ${said.length} came. Say one for each, or name the place.`,
      ),
    );
  const made = said.map(
    (one, i): SpokenReading => ({
      characteristic: characteristic.id,
      place: places[i]!,
      ...one,
      ...(meant.value.measurand !== undefined && { measurand: meant.value.measurand }),
    }),
  );
  return ok({ is: 'readings', readings: made, back: readBack(characteristic, made) });
}

const isAnswer = (one: Heard): one is Heard & { readonly is: 'goes' | 'stops' | 'drags' } =>
  one.is === 'goes' || one.is === 'stops' || one.is === 'drags';

/** "4 thou goes, 5 thou stops", or "goes 4 thou, stops 5 thou": an answer said first belongs to the size after it. */
function byLeaves(
  all: readonly Heard[],
  sized: readonly string[],
): Pick<SpokenReading, 'goes' | 'stops' | 'drags'>[] {
  const first = all.find((one) => one.is === 'number' || isAnswer(one));
  const ahead = first !== undefined && isAnswer(first) ? 1 : 0;
  const leaves: { goes?: string; stops?: string; drags?: boolean } = {};
  let size = -1;
  for (const one of all) {
    if (one.is === 'number') size += 1;
    else if (isAnswer(one)) {
      const text = sized[size + ahead];
      if (text === undefined) continue;
      leaves[one.is === 'stops' ? 'stops' : 'goes'] = text;
      if (one.is === 'drags') leaves.drags = true;
    }
  }
  return [leaves];
}

/** The one thing all words fit best, or the things they fit alike. */
function thingMeant(book: Book, all: readonly Heard[], text: string, within: SpokenIn): Outcome<Meant> {
  const before = all.slice(
    0,
    all.findIndex(({ is }) => is === 'number'),
  );
  const values = all.flatMap((one) => {
    if (one.is !== 'number') return [];
    const size = `${one.text} ${one.unit ?? ''}`.trim();
    const laid = leavesSaid(size, 'spoken');
    return [laid.ok ? laid.value.together : size];
  });
  const fits = [...book.characteristics.values()].flatMap((characteristic) => {
    if (characteristic.kind === 'seen') return [];
    const meant = meantBy(book, characteristic, before);
    if (!meant || (meant.fit === 0 && characteristic.id !== within.at)) return [];
    const left = placesLeft(book, meant).length;
    const fit =
      meant.fit +
      nearness(characteristic, values, within.unit?.(characteristic)) +
      (characteristic.id === within.at ? 1.5 : 0) -
      (characteristic.relation === undefined ? 0 : 1) +
      (left === values.length ? 0.5 : 0);
    return [{ ...meant, fit }];
  });
  fits.sort((a, b) => b.fit - a.fit);
  const [best, second] = fits;
  if (!best)
    return failed(
      issue(
        'spoken/not-understood',
        text,
        'words of the spec sheet: a name, its places, then the numbers',
        'Nothing on the sheet goes by these words. Say it as the sheet does, such as "main journal three rear ninety 2.4976".',
      ),
    );
  if (second && second.fit === best.fit) {
    const alike = fits.filter(({ fit }) => fit === best.fit).map(({ characteristic }) => characteristic.name);
    return failed(
      issue('spoken/ambiguous', text, alike.join(', or '), `That may be ${alike.join(' or ')}. Say which.`),
    );
  }
  return ok(best);
}

/** A place as it is read aloud, its axis named where the value is a number. */
function nameAt(characteristic: Characteristic, place: Place): string {
  const at = placeInWords(characteristic.places, place);
  return at === '' ? characteristic.name : `${characteristic.name}, ${at}`;
}

function saidWords({
  value,
  goes,
  stops,
  drags,
}: Pick<SpokenReading, 'value' | 'goes' | 'stops' | 'drags'>): string {
  const laid = (text: string | undefined): string[] | undefined =>
    text?.split('+').map((leaf) => leaf.trim());
  return (
    value ??
    leafAnswerWords({
      ...(goes !== undefined && { goes, goes_stack: laid(goes) }),
      ...(stops !== undefined && { stops, stops_stack: laid(stops) }),
      ...(drags && { drags }),
    })
  );
}

const readBack = (characteristic: Characteristic, made: readonly SpokenReading[]): string =>
  made.map((one) => `${nameAt(characteristic, one.place)}: ${saidWords(one)}`).join('\n');

function wordsOfRecord(book: Book, { body }: ReadingOnRecord): string {
  const characteristic = book.characteristics.get(body.characteristic);
  const said = body.value ?? leafAnswerWords(body);
  return `${characteristic ? nameAt(characteristic, body.place ?? {}) : body.characteristic}: ${said}`;
}
