import { contentHash, type Entry } from '@fettle/book';
import { admittedEntry, admittedPhoto, admittedSheet } from '../admission.ts';
import { failed, type Issue, type Outcome, ok } from '../outcome.ts';
import type { NamedPhoto, Sheet } from '../store.ts';
import { LEDGER_FILE, photoFile, sheetFile } from './archive.ts';
import { MANIFEST_FILE, type Manifest, readManifest } from './manifest.ts';
import { filesInZip, type ZippedFile } from './zip-file.ts';

/** More than these say nothing new about one file. */
const MOST_ISSUES = 20;
const LARGEST_MANIFEST = 8 * 2 ** 20;
const NEWLINE = 10;

export interface ArchiveContent {
  readonly job: string;
  readonly entries: readonly Entry[];
  readonly sheets: readonly Sheet[];
  readonly photos: readonly NamedPhoto[];
}

/** What an archive holds, or everything found wrong with it, each with where, what was got and what was wanted. */
export function readArchive(bytes: Uint8Array): Outcome<ArchiveContent> {
  const zip = filesInZip(bytes);
  if (!zip.ok) return zip;
  // Archivers put folders into a ZIP that was unpacked and packed again; they hold nothing.
  const folders = new Set(['sheets/', 'photos/']);
  const files = new Map(zip.value.filter(({ name }) => !folders.has(name)).map((file) => [file.name, file]));
  const manifest = manifestIn(files);
  if (!manifest.ok) return manifest;
  const { job, sheets, photos } = manifest.value;

  const wanted = new Set([
    MANIFEST_FILE,
    LEDGER_FILE,
    ...sheets.map(sheetFile),
    ...photos.map(({ hash }) => photoFile(hash)),
  ]);
  const issues: Issue[] = [];
  for (const name of wanted)
    if (!files.has(name))
      issues.push(issue('archive/file-missing', name, 'no such file', 'the file the manifest names'));
  // What the manifest does not name is refused by name, so that a path can play no tricks.
  for (const name of files.keys())
    if (!wanted.has(name))
      issues.push(
        issue(
          'archive/file-unexpected',
          name.slice(0, 200),
          'a file the manifest does not name',
          'no such file',
        ),
      );
  if (issues.length > 0) return failed(...issues.slice(0, MOST_ISSUES));

  const kept = <T>(outcome: Outcome<T>): T[] => {
    if (outcome.ok) return [outcome.value];
    issues.push(...outcome.issues);
    return [];
  };
  const entries = kept(entriesIn(files.get(LEDGER_FILE)!, manifest.value)).flat();
  const readSheets = sheets.flatMap((hash) => kept(sheetIn(files.get(sheetFile(hash))!, hash)));
  const readPhotos = photos.flatMap(({ hash, media }) =>
    kept(photoIn(files.get(photoFile(hash))!, hash, media)),
  );
  if (issues.length > 0) return failed(...issues.slice(0, MOST_ISSUES));
  return ok({ job, entries, sheets: readSheets, photos: readPhotos });
}

function manifestIn(files: ReadonlyMap<string, ZippedFile>): Outcome<Manifest> {
  const file = files.get(MANIFEST_FILE);
  if (!file)
    return failed(
      issue('archive/file-missing', MANIFEST_FILE, 'a ZIP without it', 'an archive made by fettle export'),
    );
  if (file.size > LARGEST_MANIFEST)
    return failed(
      issue('archive/manifest', MANIFEST_FILE, `${file.size} bytes`, `at most ${LARGEST_MANIFEST} bytes`),
    );
  const text = textOf(file);
  return text.ok ? readManifest(text.value) : text;
}

function entriesIn(file: ZippedFile, manifest: Manifest): Outcome<Entry[]> {
  const bytes = file.bytesOf();
  if (!bytes.ok) return bytes;
  const entries: Entry[] = [];
  const issues: Issue[] = [];
  const lineOf = new Map<string, number>();
  let lines = 0;
  for (const line of linesOf(bytes.value)) {
    lines++;
    const at = `${LEDGER_FILE}, line ${lines}`;
    const entry = entryIn(line, at);
    if (!entry.ok) issues.push(...entry.issues);
    else {
      const { id, job } = entry.value;
      // Another entry under the same id is shown by the fold; the same one twice is a torn file.
      const key = `${id}/${contentHash(entry.value)}`;
      const earlier = lineOf.get(key);
      lineOf.set(key, lines);
      if (job !== manifest.job)
        issues.push(
          issue('archive/other-job', at, `an entry of job ${job}`, `entries of job ${manifest.job}`),
        );
      if (earlier !== undefined)
        issues.push(
          issue('archive/entry-twice', at, `entry ${id}, as in line ${earlier}`, 'each entry once'),
        );
      entries.push(entry.value);
    }
    if (issues.length >= MOST_ISSUES) break;
  }
  if (issues.length === 0 && lines !== manifest.entries)
    issues.push(issue('archive/entry-count', LEDGER_FILE, `${lines} entries`, `${manifest.entries} entries`));
  return issues.length > 0 ? failed(...issues) : ok(entries);
}

/** The lines, each without its end; the last may lack it. */
function* linesOf(bytes: Uint8Array): Generator<Uint8Array> {
  for (let from = 0; from < bytes.length; ) {
    const end = bytes.indexOf(NEWLINE, from);
    const to = end < 0 ? bytes.length : end;
    yield bytes.subarray(from, to);
    from = to + 1;
  }
}

function entryIn(line: Uint8Array, at: string): Outcome<Entry> {
  const json = jsonIn(line, at);
  if (!json.ok) return json;
  const entry = admittedEntry(json.value);
  if (entry.ok) return ok(entry.value.entry);
  return failed(...entry.issues.map((fault) => ({ ...fault, at: `${at}, ${fault.at || '/'}` })));
}

function sheetIn(file: ZippedFile, hash: string): Outcome<Sheet> {
  const bytes = file.bytesOf();
  if (!bytes.ok) return bytes;
  const json = jsonIn(bytes.value, file.name);
  if (!json.ok) return json;
  const sheet = { hash, json: json.value };
  return placed(file.name, admittedSheet(sheet), sheet);
}

function photoIn(file: ZippedFile, hash: string, media: string): Outcome<NamedPhoto> {
  const bytes = file.bytesOf();
  if (!bytes.ok) return bytes;
  const photo = { hash, media, bytes: bytes.value };
  return placed(file.name, admittedPhoto(photo), photo);
}

function placed<T>(name: string, admitted: Outcome<unknown>, value: T): Outcome<T> {
  if (admitted.ok) return ok(value);
  return failed(...admitted.issues.map((fault) => ({ ...fault, at: `${name}${fault.at}` })));
}

function textOf(file: ZippedFile): Outcome<string> {
  const bytes = file.bytesOf();
  return bytes.ok ? decoded(bytes.value, file.name) : bytes;
}

function decoded(bytes: Uint8Array, at: string): Outcome<string> {
  try {
    return ok(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return failed(issue('archive/not-utf-8', at, 'bytes that are not UTF-8', 'text in UTF-8'));
  }
}

function jsonIn(bytes: Uint8Array, at: string): Outcome<unknown> {
  const text = decoded(bytes, at);
  if (!text.ok) return text;
  try {
    return ok(JSON.parse(text.value));
  } catch {
    const got = text.value.length > 60 ? `${text.value.slice(0, 60)}…` : text.value || 'an empty line';
    return failed(issue('archive/not-json', at, got, 'one JSON value'));
  }
}

function issue(code: string, at: string, got: string, wanted: string): Issue {
  return {
    code,
    at,
    got,
    wanted,
    message: `${at}: got ${got}, wanted ${wanted}. Export the job again from where it came. Nothing was imported.`,
  };
}
