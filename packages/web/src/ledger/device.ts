import type { Database } from './database.ts';

/**
 * The name under which this browser profile writes: one device, whose tabs take turns.
 * Made once, in the transaction that looks for it, so that two tabs opened together make one name and not two.
 */
export async function deviceOf(db: Database, fresh: () => string): Promise<string> {
  const write = db.transaction('settings', 'readwrite');
  const known = await write.store.get('device');
  const device = typeof known === 'string' ? known : `browser-${fresh()}`;
  if (known !== device) await write.store.put(device, 'device');
  await write.done;
  return device;
}
