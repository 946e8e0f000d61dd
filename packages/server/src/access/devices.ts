import { createHash, randomBytes } from 'node:crypto';
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { failed, type Outcome, ok } from '@fettle/core';
import { asWriter } from '@fettle/store';
import * as z from 'zod';

const DEVICES_FILE = 'devices.json';
/** How long a second writer of the file waits for the first [ms]. */
const WAIT = 5000;

const deviceSchema = z.strictObject({
  id: z.string().min(1).max(40),
  name: z.string().min(1).max(60),
  paired: z.string(),
  /** SHA-256 of the secret in its cookie. The secret has 256 random bits: nothing slower than a hash is needed. */
  hash: z.string().regex(/^[0-9a-f]{64}$/),
});
const fileSchema = z.strictObject({ devices: z.array(deviceSchema) });

type DeviceOnFile = z.infer<typeof deviceSchema>;

/** A phone or tablet that may come in from the network. */
export type PairedDevice = Pick<DeviceOnFile, 'id' | 'name' | 'paired'>;

const hashOf = (secret: string): string => createHash('sha256').update(secret).digest('hex');

/** The devices paired with a data directory, the first at the top. */
export function pairedDevices(directory: string): Outcome<readonly PairedDevice[]> {
  const file = onFile(directory);
  return file.ok ? ok(file.value.map(({ id, name, paired }) => ({ id, name, paired }))) : file;
}

/** The device whose cookie this is. Read from the file each time, so that one revoked elsewhere is out at once. */
export function deviceWithSecret(directory: string, secret: string): PairedDevice | undefined {
  const file = onFile(directory);
  if (!file.ok) return undefined;
  // Hashes are compared, so the time a comparison takes tells nothing of a secret.
  const hash = hashOf(secret);
  return file.value.find((device) => device.hash === hash);
}

/** Lets a device in. @returns it, and the secret that only its cookie will know */
export function deviceAdded(
  directory: string,
  name: string,
  now: number,
): Promise<Outcome<{ device: PairedDevice; secret: string }>> {
  return asWriter(directory, WAIT, async () => {
    const file = onFile(directory);
    if (!file.ok) return file;
    const secret = randomBytes(32).toString('base64url');
    const device = {
      id: randomBytes(6).toString('hex'),
      name,
      paired: new Date(now).toISOString(),
      hash: hashOf(secret),
    };
    const kept = written(directory, [...file.value, device]);
    if (!kept.ok) return kept;
    return ok({ device: { id: device.id, name, paired: device.paired }, secret });
  });
}

/** Takes a device's cookie from it, by its id or its name when only one has it. */
export function deviceRevoked(directory: string, named: string): Promise<Outcome<PairedDevice>> {
  return asWriter(directory, WAIT, async () => {
    const file = onFile(directory);
    if (!file.ok) return file;
    const byId = file.value.filter(({ id }) => id === named);
    const found = byId.length > 0 ? byId : file.value.filter(({ name }) => name === named);
    if (found.length !== 1) {
      const offered = file.value.map(({ id, name }) => `${name} (${id})`).join('; ') || 'none is paired';
      return failed({
        code: 'device/unknown',
        at: 'device',
        got: named,
        wanted: offered,
        message: `"${named}" names ${found.length === 0 ? 'no device' : `${found.length} devices`}. Take the id of one: ${offered}.`,
      });
    }
    const { id, name, paired } = found[0]!;
    const kept = written(
      directory,
      file.value.filter((device) => device.id !== id),
    );
    return kept.ok ? ok({ id, name, paired }) : kept;
  });
}

function onFile(directory: string): Outcome<readonly DeviceOnFile[]> {
  const path = join(directory, DEVICES_FILE);
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return ok([]);
    return damaged(path, (error as Error).message);
  }
  try {
    const read = fileSchema.safeParse(JSON.parse(text));
    if (read.success) return ok(read.data.devices);
  } catch {
    // Said below.
  }
  return damaged(path, text.slice(0, 60) || 'an empty file');
}

const damaged = (path: string, got: string): Outcome<never> =>
  failed({
    code: 'device/file',
    at: path,
    got,
    wanted: 'the devices, as fettle wrote them',
    message: `${path} does not say which devices are paired, so none is let in. Delete the file and pair them anew.`,
  });

/** Old text or new text, never half of one. */
function written(directory: string, devices: readonly DeviceOnFile[]): Outcome<undefined> {
  const path = join(directory, DEVICES_FILE);
  try {
    writeFileSync(`${path}.new`, `${JSON.stringify({ devices }, undefined, 2)}\n`, { mode: 0o600 });
    renameSync(`${path}.new`, path);
    return ok(undefined);
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    return failed({
      code: code === 'ENOSPC' || code === 'EDQUOT' ? 'store/disk-full' : 'store/cannot-write',
      at: path,
      got: message,
      wanted: 'a file that can be written',
      message: `${path} cannot be written (${code}). Make room or give yourself the right to, then try again.`,
    });
  }
}
