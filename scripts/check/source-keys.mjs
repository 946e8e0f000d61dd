// The sources that doc comments name must be in the list of sources.

const NO_SOURCE = 'common practice, no source';
const LOOKS_LIKE_A_KEY = /^[a-z][a-z0-9]*(-[a-z0-9]+)+$/;

/** Keys of the source lists, read as text: `'iso-1': {` or `vogel: {` at the first level of a record. */
export function keysOfSources(house) {
  const lists = house.files.filter((path) => /^packages\/core\/src\/sources\/.*\.ts$/.test(path));
  const keys = lists.flatMap((path) => [
    ...house.text(path).matchAll(/^ {2}'?([a-z0-9][a-z0-9.-]*)'?: ?\{/gm),
  ]);
  return new Set(keys.map(([, key]) => key));
}

/** The keys one `@source` line names: its first word, and what looks like a key after each comma or semicolon. */
export function keysNamed(line) {
  const said = line.replace(/\*\/.*$/, '').trim();
  if (said.startsWith(NO_SOURCE)) return [];
  const firstWords = said.split(/[;,]\s*/).map((part) => part.trim().split(/\s+/)[0] ?? '');
  return firstWords.filter((word, index) => index === 0 || LOOKS_LIKE_A_KEY.test(word));
}

export function sourceKeyFaults(house) {
  const known = keysOfSources(house);
  if (known.size === 0) return ['packages/core/src/sources:1 holds no source that could be named'];
  const faults = [];
  for (const path of house.files.filter((one) => /^packages\/core\/src\/.*\.ts$/.test(one)))
    for (const [index, line] of house.text(path).split('\n').entries()) {
      const named = /^\s*(?:\/\*\*|\*).*?@source\b(.*)$/.exec(line);
      if (named === null) continue;
      for (const key of keysNamed(named[1]))
        if (!known.has(key))
          faults.push(
            key === ''
              ? `${path}:${index + 1} names no source; give a key or "${NO_SOURCE}"`
              : `${path}:${index + 1} names source ${key}, which packages/core/src/sources does not hold`,
          );
    }
  return faults;
}
