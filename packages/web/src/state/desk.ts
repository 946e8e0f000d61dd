import { computed, signal } from '@preact/signals';
import { keepAtOnce, keptAtOnce, keysAtOnce } from '../ledger/at-once.ts';
import { type Database, openDatabase } from '../ledger/database.ts';
import { locksOf } from '../ledger/locks.ts';
import { type Server, serverAt } from '../ledger/server.ts';
import type { Hand } from '../ledger/writing.ts';

/** What the page works with, opened once. */
export interface Desk {
  readonly db: Database;
  readonly server: Server;
  readonly hand: Hand;
}

const opened = signal<Desk | undefined>(undefined);
const AT_ONCE = 'fettle setting ';
export const settings = signal<Readonly<Record<string, unknown>>>({});

export function desk(): Desk {
  if (!opened.value) throw new Error('the desk is not open yet');
  return opened.value;
}

export async function openDesk(): Promise<void> {
  const db = await openDatabase();
  const [keys, values] = await Promise.all([db.getAllKeys('settings'), db.getAll('settings')]);
  const sooner = keysAtOnce(AT_ONCE).map((key) => [key.slice(AT_ONCE.length), keptAtOnce(key)]);
  settings.value = Object.fromEntries([...keys.map((key, i) => [key, values[i]]), ...sooner]);
  opened.value = {
    db,
    server: serverAt((path, init) => fetch(path, init)),
    hand: {
      db,
      // Typed as always there, it is missing where a page came over plain HTTP.
      locks: locksOf(navigator.locks as LockManager | undefined),
      now: () => Date.now(),
      random: (count) => crypto.getRandomValues(new Uint8Array(count)),
    },
  };
}

/** A choice of this browser: who writes, the instrument last taken, the theme. */
export async function setSetting(key: string, value: unknown): Promise<void> {
  settings.value = { ...settings.value, [key]: value };
  await keepAtOnce(`${AT_ONCE}${key}`, value, () => desk().db.put('settings', value, key)).catch(() => {
    // A choice that the database cannot keep holds as long as the copy kept at once, or until the page is closed.
  });
}

const text = (key: string): string => {
  const value = settings.value[key];
  return typeof value === 'string' ? value : '';
};

export const who = computed(() => text('who'));
export const theme = computed(() => text('theme'));
