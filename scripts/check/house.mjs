// The tree as the checks see it: files with their text, packages with their manifests.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';

const NOT_OURS = new Set(['node_modules', 'dist', '.build', '.git']);

/** Paths of all files below `root`, with `/`, relative to it, in a settled order. */
function filesBelow(root, folder = '') {
  return readdirSync(join(root, folder), { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = posix.join(folder, entry.name);
      if (!entry.isDirectory()) return [path];
      return NOT_OURS.has(entry.name) || entry.name.endsWith('.fettle') ? [] : filesBelow(root, path);
    });
}

/** `{ root, files, text(path), packages }`; a package is `{ name, folder, manifest }`. */
export function houseAt(root) {
  const files = filesBelow(root);
  const texts = new Map();
  const text = (path) => {
    if (!texts.has(path)) texts.set(path, readFileSync(join(root, path), 'utf8'));
    return texts.get(path);
  };
  const packages = files
    .filter((path) => /^packages\/[^/]+\/package\.json$/.test(path))
    .map((path) => ({
      name: path.split('/')[1],
      folder: posix.dirname(path),
      manifest: JSON.parse(text(path)),
    }));
  return { root, files, text, packages, exists: (path) => existsSync(join(root, path)) };
}

/** Tests, and what only tests use: the contract suite, everything in a folder `testing`. */
export const isTest = (path) => /\.test\.(ts|tsx|mjs)$|\/testing\/|\/contract\.ts$/.test(path);
export const isSource = (path) => /\.(ts|tsx|mjs|js)$/.test(path) && !path.endsWith('.d.ts');

/** Number of the line on which `needle` first stands, 1 where it does not. */
export function lineOf(text, needle) {
  const at = text.indexOf(needle);
  return at < 0 ? 1 : text.slice(0, at).split('\n').length;
}
