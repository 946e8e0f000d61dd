import { contentHash, type SpecSheet } from '@fettle/book';

type Loose = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Loose =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const everyIs = (value: unknown, is: (one: Loose) => boolean): boolean =>
  Array.isArray(value) && value.every((one) => isRecord(one) && is(one));

const isCharacteristic = ({ id, name, kind, measurand, places, read_as }: Loose): boolean =>
  typeof id === 'string' &&
  typeof name === 'string' &&
  typeof kind === 'string' &&
  typeof measurand === 'string' &&
  Array.isArray(places) &&
  (read_as === undefined || (isRecord(read_as) && everyIs(Object.values(read_as), hasFactor)));
const hasFactor = ({ factor }: Loose): boolean => typeof factor === 'number';

const isFastener = ({ places, passes, torque }: Loose): boolean =>
  Array.isArray(places) && typeof passes === 'number' && isRecord(torque);

const isCover = ({ id, hides }: Loose): boolean =>
  typeof id === 'string' &&
  isRecord(hides) &&
  Array.isArray(hides.characteristics) &&
  Array.isArray(hides.fasteners);

/**
 * A sheet as it was kept by this program, told by its hash and its outline alone: what the schema fills in is there,
 * and the content is the one the ledger names. The server held it to every check before it kept it; so the bench
 * shows it at once, and the checks, which are heavy to load, are made here too as soon as they have come.
 */
export function sheetByShape(json: unknown, hash: string): SpecSheet | undefined {
  if (!isRecord(json) || contentHash(json) !== hash) return undefined;
  const { axes, documents, positions, characteristics, fasteners, covers } = json;
  const asKept =
    isRecord(axes) &&
    isRecord(documents) &&
    Array.isArray(positions) &&
    everyIs(characteristics, isCharacteristic) &&
    everyIs(fasteners, isFastener) &&
    everyIs(covers, isCover);
  return asKept ? (json as unknown as SpecSheet) : undefined;
}
