import { expect, it } from 'vitest';
import { arrowFaults } from './arrows.mjs';
import { soundHouse } from './planted-house.mjs';

const faultsWith = (more) => arrowFaults(soundHouse(more));

it('a sound house has no fault', () => {
  expect(arrowFaults(soundHouse())).toEqual([]);
});

it.each([
  [
    'an upward import',
    'packages/core/src/a.ts',
    "\nimport { b } from '@fettle/book';",
    /^packages\/core\/src\/a\.ts:2 .*@fettle\/book/,
  ],
  [
    'an upward type import',
    'packages/core/src/a.ts',
    "type A = import('@fettle/book').A;",
    /:1 .*@fettle\/book/,
  ],
  ['an upward import of a test', 'packages/core/src/a.test.ts', "import '@fettle/book';", /@fettle\/book/],
  [
    'an inner file of another package',
    'packages/book/src/a.ts',
    "import '@fettle/core/src/length.ts';",
    /inner file/,
  ],
  [
    'a path out of the package',
    'packages/book/src/a.ts',
    "import '../../core/src/length.ts';",
    /leaves its package/,
  ],
  ['its own door', 'packages/core/src/a.ts', "import './index.ts';", /door of its own package/],
  ['its own name', 'packages/core/src/a.ts', "import '@fettle/core';", /own package by name/],
  ['Node in a pure package', 'packages/book/src/a.ts', "import { join } from 'node:path';", /node:path/],
  ['Node without its prefix', 'packages/book/src/a.ts', "import { join } from 'path';", /imports path/],
  ['an undeclared package', 'packages/book/src/a.ts', "import * as z from 'zod';", /does not declare/],
  ['a development package outside tests', 'packages/book/src/a.ts', "import 'vitest';", /does not declare/],
  ['a file that is there for tests', 'packages/book/src/a.ts', "import './testing/b.ts';", /for tests alone/],
  ['a computed name', 'packages/cli/src/a.ts', 'await import(name);', /computed name/],
  ['a reference comment', 'packages/core/src/a.ts', '/// <reference types="node" />', /reference comment/],
  [
    'inner files from outside the packages',
    'conformance/a.ts',
    "import '../packages/core/src/length.ts';",
    /door by name/,
  ],
  [
    'an inner path from outside the packages',
    'conformance/a.ts',
    "import '@fettle/core/dist/length.js';",
    /inner file/,
  ],
  ['an undeclared package outside the packages', 'scripts/a.mjs', "import 'zod';", /does not declare/],
])('%s is a fault', (_, path, text, fault) => {
  const faults = faultsWith({ [path]: text });
  expect(faults).toHaveLength(1);
  expect(faults[0]).toMatch(fault);
});

it('a dependency against the arrows is a fault, used or not', () => {
  const text = '{ "name": "@fettle/core",\n "dependencies": { "zod": "1",\n "@fettle/book": "1" } }';
  expect(faultsWith({ 'packages/core/package.json': text })).toEqual([
    'packages/core/package.json:3 depends on @fettle/book; core may import no other package',
  ]);
});

it('a project reference against the arrows is a fault', () => {
  const text = '{ "references": [{ "path": "../book" }] }';
  expect(faultsWith({ 'packages/core/tsconfig.json': text })).toHaveLength(1);
});

it('a package outside the table is a fault', () => {
  expect(faultsWith({ 'packages/shed/package.json': '{ "name": "@fettle/shed" }' })).toEqual([
    'packages/shed/package.json:1 package shed is not in the table of arrows',
  ]);
});
