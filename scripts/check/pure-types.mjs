// What the compiler itself denies to the pure packages, so that even a stray `console` fails there.
import { posix } from 'node:path';
import { PURE } from './arrows.mjs';

/** Compiler options of a project with those it extends, nearest last. */
function effectiveOptions(house, path) {
  const config = JSON.parse(house.text(path));
  const base =
    config.extends === undefined
      ? {}
      : effectiveOptions(house, posix.join(posix.dirname(path), config.extends));
  return { ...base, ...config.compilerOptions };
}

export function pureTypeFaults(house) {
  return house.packages
    .filter(({ name }) => PURE.includes(name))
    .flatMap(({ name, folder }) => {
      const at = `${folder}/tsconfig.json`;
      if (!house.files.includes(at)) return [`${at}:1 is missing`];
      const { types, lib } = effectiveOptions(house, at);
      const faults = [];
      if (!Array.isArray(types) || types.length > 0)
        faults.push(`${at}:1 takes in types ${JSON.stringify(types)}; ${name} wants "types": []`);
      const wrong = Array.isArray(lib)
        ? lib.filter((one) => !/^es(next|\d+)(\.|$)/i.test(one))
        : ['the default'];
      if (wrong.length > 0)
        faults.push(`${at}:1 takes in lib ${wrong.join(', ')}; ${name} wants the language alone`);
      return faults;
    });
}
