import { expect, it } from 'vitest';
import { importsOf, referencesOf } from './imports.mjs';

/** `${code}`, as it stands inside a template. */
const hole = (code) => ['$', '{', code, '}'].join('');
const specifiers = (text) => importsOf(text).map(({ specifier }) => specifier);

it('finds every way to import, with its line', () => {
  const text = [
    "import a from 'a';",
    "import 'b';",
    'import type { C } from "c";',
    "import d, { type E as e } from 'd';",
    "import * as f from 'f';",
    "export * from 'g';",
    "export * as h from 'h';",
    "export { i } from 'i';",
    "export type { J } from 'j';",
    "const k = await import('k');",
    "type L = import('l').L;",
    "const m = require('m');",
    "import.meta.resolve('n');",
    'import {',
    '  o,',
    "} from 'o';",
    'const p = await import(`p`);',
    "import data from 'q' with { type: 'json' };",
  ].join('\n');
  expect(specifiers(text)).toEqual([...'abcdfghijklmnopq']);
  expect(importsOf(text).find(({ specifier }) => specifier === 'o')?.line).toBe(16);
  expect(importsOf(text).find(({ specifier }) => specifier === 'k')?.line).toBe(10);
});

it('finds an import behind a string, a regular expression and a template that look like comments', () => {
  expect(specifiers("const a = '// no'; import 'x';")).toEqual(['x']);
  expect(specifiers("const a = /[/*]'\"`/; import 'x';")).toEqual(['x']);
  expect(specifiers("const a = b / 2; import 'x'; const c = d / 3;")).toEqual(['x']);
  expect(specifiers(`const a = \`/* ${hole("b + `}'`")} \`; import 'x';`)).toEqual(['x']);
  expect(specifiers(`const a = \`${hole("await import('x')")}\`;`)).toEqual(['x']);
});

it('finds no import in comments, strings, properties and plain exports', () => {
  expect(specifiers("// import 'x'\n/* import 'x' */\nconst a = \"import 'x'\";")).toEqual([]);
  expect(specifiers("const a = `import 'x'`; a.import('x'); import.meta.url;")).toEqual([]);
  expect(specifiers("export const a = 1; const from = 'x'; export { a }; export default 'x';")).toEqual([]);
  expect(specifiers("export { a };\nconst b = c.from('x');")).toEqual([]);
});

it('tells a computed name from a written one', () => {
  expect(specifiers(`await import(name); await import(\`a/${hole('b')}\`); await import("a" + b);`)).toEqual([
    null,
    null,
    null,
  ]);
});

it('finds a reference comment', () => {
  expect(referencesOf('const a = 1;\n/// <reference types="node" />\n// <reference types="x" />')).toEqual([
    2,
  ]);
});
