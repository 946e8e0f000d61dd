import { createHash } from 'node:crypto';
import { contentHash, type Entry, readEntry } from '@fettle/book';
import { canonicalText } from './canonical-text.ts';
import { failed, type Issue, type Outcome, ok } from './outcome.ts';
import type { NamedPhoto, Sheet } from './store.ts';

/** Deeper than any sheet or entry goes; what is deeper would exhaust the stack of whoever walks it. */
const DEEPEST = 64;
/** One photo. A camera's largest picture is a third of it. */
const LARGEST_PHOTO = 64 * 2 ** 20;

export const HASH = /^[0-9a-f]{64}$/;

export interface AdmittedEntry {
  readonly entry: Entry;
  readonly text: string;
}

/** What keeps a value from being kept as JSON and read back the same, if anything. */
function jsonFault(value: unknown, at: string, depth = 0): Issue | undefined {
  const fault = (code: string, got: string, wanted: string): Issue => ({
    code,
    at,
    got,
    wanted,
    message: `${at || 'This'}: got ${got}, wanted ${wanted}. Nothing was kept; correct the file it came from.`,
  });
  if (depth > DEEPEST)
    return fault('json/too-deep', `more than ${DEEPEST} levels`, `at most ${DEEPEST} levels`);
  if (value === null || value === undefined) return undefined;
  if (typeof value === 'number')
    return Number.isFinite(value) ? undefined : fault('json/not-finite', String(value), 'a finite number');
  if (typeof value === 'string' || typeof value === 'boolean') return undefined;
  if (typeof value !== 'object') return fault('json/not-json', `a ${typeof value}`, 'what JSON can hold');
  for (const [key, inside] of Object.entries(value)) {
    const found = jsonFault(inside, `${at}/${key}`, depth + 1);
    if (found) return found;
  }
  return undefined;
}

/** An entry that may be kept, with the text it is kept as. */
export function admittedEntry(value: unknown): Outcome<AdmittedEntry> {
  const fault = jsonFault(value, '');
  if (fault) return failed(fault);
  const read = readEntry(value);
  if (!read.ok) return read;
  const text = canonicalText(value);
  // A key that reading drops, such as __proto__, would change the hash by which the next page names this one.
  if (canonicalText(read.value) !== text)
    return failed({
      code: 'entry/malformed',
      at: '/body',
      got: 'a key that is lost in reading',
      wanted: 'keys that are read as they were written',
      message:
        'The entry has a key that is lost in reading, such as __proto__. Rename the key where it was written.',
    });
  return ok({ entry: read.value, text });
}

/** The text a sheet is kept as, when it is the sheet its hash says. */
export function admittedSheet({ hash, json }: Sheet): Outcome<string> {
  const fault = jsonFault(json, '');
  if (fault) return failed(fault);
  const really = json === undefined ? 'nothing' : contentHash(json);
  if (really !== hash) return failed(otherContent('sheet', hash, really));
  return ok(canonicalText(json));
}

export function hashOfBytes(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

export function admittedPhoto(photo: NamedPhoto): Outcome<NamedPhoto> {
  const really = hashOfBytes(photo.bytes);
  if (really !== photo.hash) return failed(otherContent('photo', photo.hash, really));
  const size = photo.bytes.length;
  if (size === 0 || size > LARGEST_PHOTO)
    return failed({
      code: 'photo/size',
      at: '',
      got: `${size} bytes`,
      wanted: `1 to ${LARGEST_PHOTO} bytes`,
      message: `The photo has ${size} bytes; 1 to ${LARGEST_PHOTO} can be kept. Save it smaller and add it again.`,
    });
  if (!/^[a-z0-9.+-]+\/[a-z0-9.+-]+$/i.test(photo.media) || photo.media.length > 100)
    return failed({
      code: 'photo/media',
      at: '',
      got: JSON.stringify(photo.media)?.slice(0, 120) ?? 'nothing',
      wanted: 'a media type such as image/jpeg',
      message: 'The photo does not say what it is. Give its media type, such as image/jpeg.',
    });
  return ok(photo);
}

function otherContent(what: 'sheet' | 'photo', hash: string, really: string): Issue {
  return {
    code: `${what}/hash-differs`,
    at: '',
    got: really,
    wanted: hash,
    message: `The ${what} named ${hash} has the content of ${really}: it was changed or damaged. Take it again from where it came.`,
  };
}
