import { randomUUID } from 'node:crypto';
import {
  closeSync,
  fsyncSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  statSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import { failed, type Outcome, ok } from './outcome.ts';

const DEVICE_FILE = 'device.json';

/**
 * The writer that a data directory is, and where it was when it became that writer.
 * A copy, and a backup put back, would write pages that the original writes too: either is a new writer.
 */
interface Device {
  readonly device: string;
  /** Its real path, and the device and inode numbers of directory and database. */
  readonly place: string;
  /** Writers this directory was before, the latest last. */
  readonly formerly: readonly string[];
}

/** The device id on file, or undefined when there is none yet or it belongs to another place. */
export function deviceOnFile(directory: string, database: string): Outcome<string | undefined> {
  const device = deviceFile(directory);
  if (!device.ok) return device;
  return ok(device.value?.place === placeOf(directory, database) ? device.value?.device : undefined);
}

/** The device id on file if it is of this place, otherwise a new one, on file from now on. Only the writer may call this. */
export function deviceSettled(directory: string, database: string): Outcome<string> {
  const found = deviceFile(directory);
  if (!found.ok) return found;
  const place = placeOf(directory, database);
  const before = found.value;
  if (before?.place === place) return ok(before.device);
  const device: Device = {
    device: randomUUID(),
    place,
    formerly: before ? [...before.formerly, before.device] : [],
  };
  replaceFile(join(directory, DEVICE_FILE), `${JSON.stringify(device, undefined, 2)}\n`);
  return ok(device.device);
}

function placeOf(directory: string, database: string): string {
  const numbers = (path: string): string => {
    const { dev, ino } = statSync(path, { bigint: true });
    return `${dev}:${ino}`;
  };
  return `${realpathSync(directory)} ${numbers(directory)} ${numbers(database)}`;
}

function deviceFile(directory: string): Outcome<Device | undefined> {
  const path = join(directory, DEVICE_FILE);
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return ok(undefined);
    throw error;
  }
  const device = deviceIn(text);
  if (device) return ok(device);
  return failed({
    code: 'store/device-file',
    at: path,
    got: text.slice(0, 60) || 'an empty file',
    wanted: 'device, place and formerly, as fettle wrote them',
    message: `${path} no longer says which writer this data directory is. Delete that file: the directory becomes a new writer and keeps all its jobs.`,
  });
}

function deviceIn(text: string): Device | undefined {
  try {
    const { device, place, formerly } = JSON.parse(text) as Partial<Device>;
    if (typeof device !== 'string' || device === '' || device.length > 100) return undefined;
    if (typeof place !== 'string' || !Array.isArray(formerly)) return undefined;
    return { device, place, formerly: formerly.map(String) };
  } catch {
    return undefined;
  }
}

/** Old text or new text, never half of one, even when the power goes. */
function replaceFile(path: string, text: string): void {
  const fresh = `${path}.new`;
  const file = openSync(fresh, 'w', 0o600);
  try {
    writeSync(file, text);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
  renameSync(fresh, path);
}
