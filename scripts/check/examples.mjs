// Examples in doc comments, `@example f(1) // 2.0`: found here, run by a test.

/** `{ at, call, printed }` for every example of the package `name`. */
export function examplesOf(house, name) {
  return house.files
    .filter((path) => path.startsWith(`packages/${name}/src/`) && path.endsWith('.ts'))
    .flatMap((path) =>
      house
        .text(path)
        .split('\n')
        .flatMap((line, index) => {
          const example = /@example\s+(.*)/.exec(line);
          if (example === null) return [];
          const [call = '', printed = ''] = example[1].replace(/\*\/\s*$/, '').split(/\s*\/\/\s*/);
          return [{ at: `${path}:${index + 1}`, call, printed: printed.trim() }];
        }),
    );
}

/** What the call gives, with the exports of the package's door in scope. */
export function resultOf(call, door) {
  return new Function(...Object.keys(door), `'use strict'; return (${call});`)(...Object.values(door));
}

/** Half a unit of the last digit printed. */
export function toleranceOf(printed) {
  const [, decimals = '', exponent = '0'] = /^-?\d+(?:\.(\d+))?(?:e([+-]?\d+))?$/i.exec(printed) ?? [];
  return 0.5 * 10 ** (Number(exponent) - decimals.length);
}
