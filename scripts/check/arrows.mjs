// Who may import whom. An arrow that is not in this table does not exist.
import { builtinModules } from 'node:module';
import { posix } from 'node:path';
import { isSource, isTest, lineOf } from './house.mjs';
import { importsOf, referencesOf } from './imports.mjs';

const ARROWS = {
  core: [],
  book: ['core'],
  draw: ['core', 'book'],
  store: ['book'],
  report: ['core', 'book', 'draw'],
  server: ['core', 'book', 'draw', 'store', 'report'],
  cli: ['core', 'book', 'draw', 'store', 'report', 'server'],
  web: ['core', 'book', 'draw'],
};

/** Packages that run in page, server and command line alike, and so know neither Node nor DOM. */
export const PURE = ['core', 'book', 'draw'];

const SCOPE = '@fettle/';
const BUILTIN = new Set(builtinModules);
const isBuiltin = (specifier) => specifier.startsWith('node:') || BUILTIN.has(specifier.split('/')[0]);
const packageOf = (specifier) =>
  specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
const dependenciesOf = (manifest) => ({
  ...manifest.dependencies,
  ...manifest.peerDependencies,
  ...manifest.optionalDependencies,
});
const allowedText = (name) =>
  ARROWS[name].length === 0 ? 'no other package' : `only ${ARROWS[name].join(', ')}`;

function manifestFaults(house) {
  return house.packages.flatMap(({ name, folder, manifest }) => {
    const at = `${folder}/package.json`;
    if (ARROWS[name] === undefined) return [`${at}:1 package ${name} is not in the table of arrows`];
    const text = house.text(at);
    const faults = [];
    if (manifest.name !== SCOPE + name)
      faults.push(
        `${at}:${lineOf(text, '"name"')} is named ${manifest.name}, its folder wants ${SCOPE}${name}`,
      );
    const all = { ...dependenciesOf(manifest), ...manifest.devDependencies };
    for (const dependency of Object.keys(all)) {
      const target = dependency.slice(SCOPE.length);
      if (dependency.startsWith(SCOPE) && !ARROWS[name].includes(target))
        faults.push(
          `${at}:${lineOf(text, `"${dependency}"`)} depends on ${dependency}; ${name} may import ${allowedText(name)}`,
        );
    }
    return faults;
  });
}

function referenceFaults(house) {
  return house.packages.flatMap(({ name, folder }) => {
    const at = `${folder}/tsconfig.json`;
    if (ARROWS[name] === undefined || !house.files.includes(at)) return [];
    const text = house.text(at);
    return (JSON.parse(text).references ?? [])
      .filter(({ path }) => !ARROWS[name].includes(path.replace(/^\.\.\//, '')))
      .map(
        ({ path }) =>
          `${at}:${lineOf(text, `"${path}"`)} refers to ${path}; ${name} may import ${allowedText(name)}`,
      );
  });
}

/** What is wrong with one import of a file inside package `name`; `undefined` when nothing is. */
function insideFault(owner, path, specifier, rootManifest) {
  const { name, folder, manifest } = owner;
  if (specifier === null) return 'imports a computed name, which no check can follow; write the name out';
  if (specifier.startsWith('.')) {
    const target = posix.join(posix.dirname(path), specifier);
    if (!target.startsWith(`${folder}/`))
      return `leaves its package by ${specifier}; import the other package's door`;
    if (isTest(target) && !isTest(path)) return `imports ${specifier}, which is there for tests alone`;
    if (target === `${folder}/src/index.ts` && !isTest(path))
      return 'imports the door of its own package; import the file itself';
    return undefined;
  }
  if (specifier.startsWith('/') || specifier.startsWith('file:'))
    return `imports by absolute path ${specifier}`;
  if (isBuiltin(specifier))
    return PURE.includes(name) && !isTest(path)
      ? `imports ${specifier}; ${name} runs without Node, so let it come in as an argument`
      : undefined;
  const wanted = packageOf(specifier);
  if (wanted.startsWith(SCOPE)) {
    const target = wanted.slice(SCOPE.length);
    if (target === name) return `imports its own package by name; import the file itself`;
    if (!ARROWS[name].includes(target))
      return `imports ${specifier}; ${name} may import ${allowedText(name)}`;
    if (specifier !== wanted) return `imports ${specifier}, an inner file; the door is ${wanted}`;
  }
  const declared = {
    ...dependenciesOf(manifest),
    ...(isTest(path) ? testDependencies(manifest, rootManifest) : {}),
    // What stands beside src builds the package and does not go into it.
    ...(path.startsWith(`${folder}/src/`) ? {} : manifest.devDependencies),
  };
  if (declared[wanted] === undefined)
    return `imports ${wanted}, which ${folder}/package.json does not declare`;
  return undefined;
}

const testDependencies = (manifest, rootManifest) => ({
  ...rootManifest.devDependencies,
  ...manifest.devDependencies,
});

/** What is wrong with one import of a file outside the packages: conformance, scripts, bench. */
function outsideFault(house, path, specifier, rootManifest) {
  if (specifier === null || isBuiltin(specifier)) return undefined;
  if (specifier.startsWith('.')) {
    const target = posix.join(posix.dirname(path), specifier);
    return /^packages\/[^/]+\/src\//.test(target)
      ? `reaches into a package by ${specifier}; import its door by name`
      : undefined;
  }
  const wanted = packageOf(specifier);
  if (wanted.startsWith(SCOPE)) {
    if (specifier !== wanted) return `imports ${specifier}, an inner file; the door is ${wanted}`;
    const known = house.packages.some(({ manifest }) => manifest.name === wanted);
    return known ? undefined : `imports ${wanted}, which is no package here`;
  }
  const declared = { ...rootManifest.dependencies, ...rootManifest.devDependencies };
  return declared[wanted] === undefined
    ? `imports ${wanted}, which package.json does not declare`
    : undefined;
}

/** Every arrow that is drawn but does not exist: in package.json, in project references, in imports. */
export function arrowFaults(house) {
  const rootManifest = JSON.parse(house.text('package.json'));
  const faults = [...manifestFaults(house), ...referenceFaults(house)];
  for (const path of house.files.filter(isSource)) {
    const text = house.text(path);
    const owner = house.packages.find(({ folder }) => path.startsWith(`${folder}/`));
    if (owner !== undefined && ARROWS[owner.name] === undefined) continue;
    if (owner !== undefined)
      for (const line of referencesOf(text))
        faults.push(`${path}:${line} brings in types by a reference comment; import what is used`);
    for (const { specifier, line } of importsOf(text)) {
      const fault =
        owner === undefined
          ? outsideFault(house, path, specifier, rootManifest)
          : insideFault(owner, path, specifier, rootManifest);
      if (fault !== undefined) faults.push(`${path}:${line} ${fault}`);
    }
  }
  return faults;
}
