/**
 * What is typed or chosen is kept in the same instant in the browser's plain store, which writes before it returns,
 * and stays there until the database, which takes its time, has it as well. A tab closed in between loses nothing.
 */

/** The plain store, where there is one and it may be used. */
function store(): Storage | undefined {
  try {
    return globalThis.localStorage;
  } catch {
    return undefined;
  }
}

/** What was kept at once under a key and is not yet known to be in the database. */
export function keptAtOnce(key: string): unknown {
  const text = store()?.getItem(key);
  if (typeof text !== 'string') return undefined;
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** All such keys that begin so. */
export function keysAtOnce(prefix: string): string[] {
  const here = store();
  if (!here) return [];
  return Array.from({ length: here.length }, (_, i) => here.key(i)).filter(
    (key): key is string => key?.startsWith(prefix) === true,
  );
}

/** Keeps a value at once, then lastingly; the copy goes when the lasting one stands and nothing newer came. */
export async function keepAtOnce(
  key: string,
  value: unknown,
  lasting: () => Promise<unknown>,
): Promise<void> {
  const here = store();
  const text = JSON.stringify(value);
  try {
    here?.setItem(key, text);
  } catch {
    // No room, or not allowed: then the database alone has to do.
  }
  await lasting();
  if (here?.getItem(key) === text) here.removeItem(key);
}
