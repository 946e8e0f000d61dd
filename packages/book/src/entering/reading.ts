import { failed, type Issue, issue, type Outcome, ok, parseQuantity, type Quantity } from '@fettle/core';
import { standardUncertaintyOf } from '../assess/instrument.ts';
import { asFittedNow, stateNamed } from '../assess/selection.ts';
import { type LeavesSaid, leavesSaid } from '../chest/stacked.ts';
import type { Book } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';
import { axisValues, type Place, positionAt } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { questionOfReading } from './plausible.ts';

/** A reading as somebody says it, before it is held against the book. */
export interface ReadingSaid {
  readonly characteristic: string;
  readonly place: Place;
  readonly part?: string | undefined;
  readonly measurand?: string | undefined;
  readonly instrument?: string | undefined;
  readonly value?: string | undefined;
  /** The thickest leaf that goes, or leaves laid together: `0.012 in + 0.010 in`. */
  readonly goes?: string | undefined;
  readonly stops?: string | undefined;
  /** The leaf that goes drags. */
  readonly drags?: boolean | undefined;
  readonly temperature?: { part?: string | undefined; instrument?: string | undefined } | undefined;
  /** What was said before the program asked. */
  readonly firstSaid?: string | undefined;
  /** The writer stands by it although the program asks. */
  readonly confirmed?: boolean | undefined;
  readonly note?: string | undefined;
}

/** As many as a person reads. */
const some = (words: readonly string[]): string =>
  words.length > 16 ? `${words.slice(0, 16).join(', ')} …` : list(words);

const list = (words: readonly string[]): string => (words.length > 0 ? words.join(', ') : 'none');

/**
 * The body of the entry for a reading, or everything that keeps it from being one.
 * Nothing is guessed: an instrument is taken for granted only where the sheet names a type and one such is owned.
 */
export function admittedReading(book: Book, said: ReadingSaid): Outcome<Body<'reading'>> {
  const characteristic = book.characteristics.get(said.characteristic);
  if (!characteristic) return failed(unknownCharacteristic(book, said.characteristic));
  if (characteristic.kind === 'seen')
    return failed(
      issue(
        'reading/is-seen',
        said.characteristic,
        'a reading',
        'what was seen',
        `${characteristic.name} is looked at, not measured. Say what was seen instead.`,
      ),
    );
  const issues: Issue[] = [];
  const instrument = instrumentFor(book, characteristic, said.instrument, issues);
  const measurand = measurandFor(characteristic, said.measurand, issues);
  issues.push(...placeIssues(book, characteristic, said.place));
  const state = stateFor(book, characteristic, said, issues);
  const laid = (key: 'goes' | 'stops'): LeavesSaid | undefined => {
    const read = said[key] === undefined ? undefined : leavesSaid(said[key], key);
    if (read && !read.ok) issues.push(...read.issues);
    return read?.ok ? read.value : undefined;
  };
  const [goesLaid, stopsLaid] = [laid('goes'), laid('stops')];
  const quantity = (key: 'value' | 'goes' | 'stops', text: string | undefined): Quantity | undefined => {
    if (text === undefined) return undefined;
    const read = parseQuantity(text, characteristic.kind as Exclude<Characteristic['kind'], 'seen'>);
    if (read.ok) return read.value;
    issues.push(...read.issues.map((one) => ({ ...one, at: key })));
    return undefined;
  };
  const value = quantity('value', said.value);
  const goes = quantity('goes', goesLaid?.together);
  const stops = quantity('stops', stopsLaid?.together);
  if (goes && stops && goes.value >= stops.value)
    issues.push(
      issue(
        'feeler/contradiction',
        'goes',
        `${goes.text} goes, ${stops.text} does not`,
        'a leaf that goes thinner than one that does not',
        `A leaf of ${goes.text} is said to go where ${stops.text} does not. Clean both, try again, and say it again.`,
      ),
    );
  if (said.drags && said.goes === undefined)
    issues.push(
      issue(
        'feeler/nothing-drags',
        'drags',
        'no leaf that goes',
        'the leaf that drags, as one that goes',
        'Say which leaf drags: it is the thickest that goes.',
      ),
    );
  temperatureIssues(said, issues);
  const declared = instrument === undefined ? undefined : book.instruments.get(instrument);
  const subject = value ?? goes ?? stops;
  const u =
    declared && subject ? standardUncertaintyOf(declared, characteristic.kind, subject.value) : undefined;
  if (declared && subject && u === undefined)
    issues.push(
      issue(
        'reading/wrong-instrument',
        'instrument',
        `${declared.body.name}, ± ${declared.body.uncertainty.expanded}`,
        `an instrument for ${characteristic.kind}`,
        `${declared.body.name} does not measure ${characteristic.kind}. Choose another with --with.`,
      ),
    );
  if (issues.length > 0) return failed(...issues);

  const read = state === undefined ? undefined : stateNamed(book, state)?.state;
  const size = read?.size;
  // In another measurand the limits are not this number's limits.
  const question =
    value && measurand === characteristic.measurand
      ? questionOfReading(characteristic, size, value, u ?? 0, read?.condition === 'used')
      : undefined;
  if (question && !said.confirmed) return failed(question);
  const first =
    said.firstSaid === undefined ? undefined : firstQuestion(characteristic, said.firstSaid, size, u);
  const mates = matesOf(book, characteristic, said.place);
  const asked = question
    ? { code: question.code, question: question.message, first_said: said.firstSaid ?? value!.text }
    : said.firstSaid === undefined
      ? undefined
      : {
          code: first?.code ?? 'reading/corrected',
          question: first?.message ?? 'Corrected by its writer before it was entered.',
          first_said: said.firstSaid,
        };
  return ok({
    characteristic: characteristic.id,
    ...(state !== undefined && { state }),
    ...(mates.length > 0 && { mates }),
    ...(Object.keys(said.place).length > 0 && { place: said.place }),
    ...(measurand !== characteristic.measurand && { measurand }),
    instrument: instrument!,
    ...(said.value !== undefined && { value: said.value }),
    ...(goesLaid && { goes: goesLaid.together }),
    ...(stopsLaid && { stops: stopsLaid.together }),
    ...(goesLaid?.stack && { goes_stack: [...goesLaid.stack] }),
    ...(stopsLaid?.stack && { stops_stack: [...stopsLaid.stack] }),
    ...(said.drags === true && said.goes !== undefined && { drags: true as const }),
    ...(said.temperature &&
      (said.temperature.part !== undefined || said.temperature.instrument !== undefined) && {
        temperature: said.temperature,
      }),
    ...(asked && { asked }),
    ...(said.note !== undefined && { note: said.note }),
  });
}

function placeIssues(book: Book, characteristic: Characteristic, place: Place): Issue[] {
  const sheet = book.sheet ?? { axes: {} };
  return Object.entries(place).flatMap(([axis, value]) => {
    const values = characteristic.places.includes(axis) ? axisValues(sheet, characteristic, axis) : [];
    if (values.includes(value)) return [];
    const wanted =
      values.length > 0 ? `${axis}: ${list(values)}` : `places along ${list(characteristic.places)}`;
    return [
      issue(
        'place/unknown',
        'place',
        `${axis} ${value}`,
        wanted,
        `${characteristic.name} has no ${axis} "${value}". It has ${wanted}.`,
      ),
    ];
  });
}

/** The question that what was first said would have raised. */
function firstQuestion(
  characteristic: Characteristic,
  text: string,
  size: string | undefined,
  u: number | undefined,
): Issue | undefined {
  if (characteristic.kind === 'seen') return undefined;
  const read = parseQuantity(text, characteristic.kind);
  return read.ok ? questionOfReading(characteristic, size, read.value, u ?? 0) : read.issues[0];
}

export function unknownCharacteristic(book: Book, id: string): Issue {
  const [area] = id.split('.');
  const near = [...book.characteristics.keys()].filter((known) => known.startsWith(`${area}.`));
  const offered = near.length > 0 ? near : [...book.characteristics.keys()];
  return issue(
    'characteristic/unknown',
    'characteristic',
    id,
    list(offered.slice(0, 40)),
    `The spec sheet has no characteristic "${id}". It has ${list(offered.slice(0, 12))}${offered.length > 12 ? ' …' : ''}.`,
  );
}

function instrumentFor(
  book: Book,
  characteristic: Characteristic,
  named: string | undefined,
  issues: Issue[],
): string | undefined {
  const owned = [...book.instruments.values()];
  if (named !== undefined) {
    if (book.instruments.has(named)) return named;
    issues.push(
      issue(
        'instrument/unknown',
        'instrument',
        named,
        list([...book.instruments.keys()]),
        `No instrument "${named}" is declared in this job. Declare it with "fettle tools", or take one of ${list([...book.instruments.keys()])}.`,
      ),
    );
    return undefined;
  }
  const usual = owned.filter(({ body }) => body.type === characteristic.with);
  if (characteristic.with !== undefined && usual.length === 1) return usual[0]!.body.instrument;
  issues.push(
    issue(
      'instrument/missing',
      'instrument',
      'none named',
      list([...book.instruments.keys()]),
      `With which instrument was ${characteristic.name} read? A reading without one cannot be judged. Owned: ${list([...book.instruments.keys()])}.`,
    ),
  );
  return undefined;
}

function measurandFor(characteristic: Characteristic, named: string | undefined, issues: Issue[]): string {
  const ways = { [characteristic.measurand]: 'as the sheet states it', ...describedWays(characteristic) };
  const choices = Object.entries(ways).map(([name, how]) => `${name} (${how})`);
  if (named !== undefined) {
    if (Object.hasOwn(ways, named)) return named;
    issues.push(
      issue(
        'reading/unknown-measurand',
        'measurand',
        named,
        list(Object.keys(ways)),
        `${characteristic.name} is not read as "${named}". Say one of ${list(choices)}.`,
      ),
    );
  } else if (characteristic.ask_measurand) {
    issues.push(
      issue(
        'reading/measurand-missing',
        'measurand',
        'not said',
        list(Object.keys(ways)),
        `How was ${characteristic.name} read: ${choices.join(' or ')}? The two differ, so it must be said (--measurand).`,
      ),
    );
  }
  return named ?? characteristic.measurand;
}

const describedWays = (characteristic: Characteristic): Record<string, string> =>
  Object.fromEntries(Object.entries(characteristic.read_as ?? {}).map(([name, { how }]) => [name, how]));

function stateFor(
  book: Book,
  characteristic: Characteristic,
  said: Pick<ReadingSaid, 'part' | 'place'>,
  issues: Issue[],
): string | undefined {
  if (said.part !== undefined) {
    const part = book.parts.get(said.part);
    if (part) return part.current.id;
    issues.push(
      issue(
        'part/unknown',
        'part',
        said.part,
        list([...book.parts.keys()]),
        `No part "${said.part}" has been entered. Enter it with "fettle part", or take one of ${some([...book.parts.keys()])}.`,
      ),
    );
    return undefined;
  }
  if (characteristic.position === undefined) return undefined;
  const position = positionAt(characteristic.position, said.place);
  const state = asFittedNow(book)(position);
  if (state !== undefined) return state;
  issues.push(
    issue(
      'part/none-fitted',
      position,
      'no part',
      `a part fitted at ${position}`,
      `Nothing is entered as fitted at ${position}, so the reading would belong to no part. Enter the part with "fettle part", or name one with --part.`,
    ),
  );
  return undefined;
}

function matesOf(book: Book, characteristic: Characteristic, place: Place): string[] {
  const now = asFittedNow(book);
  return (characteristic.mates ?? []).flatMap((mate) => now(positionAt(mate, place)) ?? []);
}

function temperatureIssues(said: ReadingSaid, issues: Issue[]): void {
  for (const key of ['part', 'instrument'] as const) {
    const text = said.temperature?.[key];
    const read = text === undefined ? undefined : parseQuantity(text, 'temperature');
    if (read && !read.ok)
      issues.push(...read.issues.map((one) => ({ ...one, at: `temperature of the ${key}` })));
  }
}
