import { HASH } from '../admission.ts';
import { failed, type Issue, type Outcome, ok } from '../outcome.ts';

export const FORMAT = 'fettle-archive';
export const FORMAT_VERSION = 1;
export const MADE_BY = 'fettle 0.1.0';
const JOB = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;
const MEDIA = /^[a-zA-Z0-9.+-]+\/[a-zA-Z0-9.+-]+$/;
export const MANIFEST_FILE = 'manifest.json';

/** What an archive says it holds. Photos carry their media type here: bytes alone do not tell it. */
export interface Manifest {
  readonly format: typeof FORMAT;
  readonly version: typeof FORMAT_VERSION;
  readonly job: string;
  readonly entries: number;
  readonly sheets: readonly string[];
  readonly photos: readonly { readonly hash: string; readonly media: string }[];
  readonly made_by: string;
}

/** The published form; `readManifest` asks for the same, and a test holds the two together. */
export const MANIFEST_SCHEMA = {
  type: 'object',
  additionalProperties: false,
  required: ['format', 'version', 'job', 'entries', 'sheets', 'photos', 'made_by'],
  properties: {
    format: { const: FORMAT },
    version: { const: FORMAT_VERSION },
    job: { type: 'string', format: 'uuid' },
    entries: { type: 'integer', minimum: 1, description: 'lines in ledger.ndjson' },
    sheets: {
      type: 'array',
      uniqueItems: true,
      items: { type: 'string', pattern: HASH.source },
      description: 'SHA-256 of the RFC 8785 form of each spec sheet; each is sheets/<hash>.json',
    },
    photos: {
      type: 'array',
      uniqueItems: true,
      items: {
        type: 'object',
        additionalProperties: false,
        required: ['hash', 'media'],
        properties: {
          hash: { type: 'string', pattern: HASH.source },
          media: { type: 'string', pattern: MEDIA.source, maxLength: 100 },
        },
      },
      description: 'SHA-256 of the bytes of each photo; each is photos/<hash>',
    },
    made_by: { type: 'string', minLength: 1, maxLength: 200, description: 'program and version' },
  },
} as const;

const isHash = (value: unknown): boolean => typeof value === 'string' && HASH.test(value);
const isOnce = (values: readonly unknown[]): boolean => new Set(values).size === values.length;

function isPhoto(value: unknown): value is { hash: string; media: string } {
  if (typeof value !== 'object' || value === null || Object.keys(value).length !== 2) return false;
  const { hash, media } = value as Record<string, unknown>;
  return isHash(hash) && typeof media === 'string' && media.length <= 100 && MEDIA.test(media);
}

/** What is asked of each key, in the order in which it is worth knowing. */
const WANTED: Record<keyof Manifest, { wanted: string; holds: (value: unknown) => boolean }> = {
  format: { wanted: `"${FORMAT}"`, holds: (value) => value === FORMAT },
  version: { wanted: `${FORMAT_VERSION}`, holds: (value) => value === FORMAT_VERSION },
  job: { wanted: 'the UUID of the job', holds: (value) => typeof value === 'string' && JOB.test(value) },
  entries: {
    wanted: 'the number of entries, at least 1',
    holds: (value) => Number.isSafeInteger(value) && (value as number) >= 1,
  },
  sheets: {
    wanted: 'a list of SHA-256 in lower-case hexadecimal, each once',
    holds: (value) => Array.isArray(value) && value.every(isHash) && isOnce(value),
  },
  photos: {
    wanted: 'a list of {hash, media}, each hash once',
    holds: (value) => Array.isArray(value) && value.every(isPhoto) && isOnce(value.map(({ hash }) => hash)),
  },
  made_by: {
    wanted: 'the program and its version',
    holds: (value) => typeof value === 'string' && value.length >= 1 && value.length <= 200,
  },
};

export function readManifest(text: string): Outcome<Manifest> {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    return failed(wrong('archive/manifest', '', (error as Error).message, 'JSON'));
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return failed(wrong('archive/manifest', '', shown(value), 'an object'));
  const fields = value as Record<string, unknown>;
  // Format and version first: what another version asks for is not known here.
  for (const key of ['format', 'version'] as const)
    if (!WANTED[key].holds(fields[key]))
      return failed(wrong(`archive/${key}`, `/${key}`, shown(fields[key]), WANTED[key].wanted));
  const issues: Issue[] = [];
  for (const [key, { wanted, holds }] of Object.entries(WANTED))
    if (!holds(fields[key])) issues.push(wrong('archive/manifest', `/${key}`, shown(fields[key]), wanted));
  for (const key of Object.keys(fields))
    if (!Object.hasOwn(WANTED, key))
      issues.push(wrong('archive/manifest', `/${key}`, 'a key not known', 'no such key'));
  return issues.length > 0 ? failed(...issues) : ok(value as Manifest);
}

const shown = (value: unknown): string =>
  value === undefined ? 'nothing' : JSON.stringify(value).slice(0, 120);

function wrong(code: string, pointer: string, got: string, wanted: string): Issue {
  const advice =
    code === 'archive/version'
      ? 'A newer fettle made it; import it with that one.'
      : 'Export the job again from where it came.';
  const at = `${MANIFEST_FILE}${pointer}`;
  return {
    code,
    at,
    got,
    wanted,
    message: `${at}: got ${got}, wanted ${wanted}. ${advice} Nothing was imported.`,
  };
}
