// A small house in memory, for tests that plant a fault in it.

/** `files` is path → text. */
function plantedHouse(files) {
  const paths = Object.keys(files).sort();
  const text = (path) => {
    if (files[path] === undefined) throw new Error(`no file ${path} was planted`);
    return files[path];
  };
  const packages = paths
    .filter((path) => /^packages\/[^/]+\/package\.json$/.test(path))
    .map((path) => ({
      name: path.split('/')[1],
      folder: path.replace('/package.json', ''),
      manifest: JSON.parse(files[path]),
    }));
  const exists = (path) => files[path] !== undefined || paths.some((one) => one.startsWith(`${path}/`));
  return { root: '/nowhere', files: paths, text, packages, exists };
}

const manifest = (name, dependencies) => JSON.stringify({ name: `@fettle/${name}`, dependencies }, null, 2);

/** A house without fault: core, book and cli, with `more` laid over it. */
export const soundHouse = (more = {}) =>
  plantedHouse({
    'package.json': JSON.stringify({ devDependencies: { vitest: '1.0.0' } }),
    'tsconfig.base.json': JSON.stringify({ compilerOptions: { lib: ['es2023'], types: [] } }),
    'packages/core/package.json': manifest('core', { zod: '1.0.0' }),
    'packages/core/tsconfig.json': JSON.stringify({ extends: '../../tsconfig.base.json', references: [] }),
    'packages/core/src/index.ts': "export * from './length.ts';\n",
    'packages/core/src/length.ts': "import * as z from 'zod';\nexport const a = z;\n",
    'packages/core/src/length.test.ts':
      "import { it } from 'vitest';\nimport { readFileSync } from 'node:fs';\n",
    'packages/core/src/sources/ledger.ts': "export const S = {\n  'iso-1': {\n    title: 'x',\n  },\n};\n",
    'packages/book/package.json': manifest('book', { '@fettle/core': '1.0.0' }),
    'packages/book/tsconfig.json': JSON.stringify({
      extends: '../../tsconfig.base.json',
      compilerOptions: { types: [] },
      references: [{ path: '../core' }],
    }),
    'packages/book/src/index.ts': "import type { A } from '@fettle/core';\n",
    'packages/cli/package.json': manifest('cli', { '@fettle/book': '1.0.0' }),
    'packages/cli/src/index.ts': "import { join } from 'node:path';\nimport '@fettle/book';\n",
    ...more,
  });
