import { expect, it } from 'vitest';
import { longFiles } from './lengths.mjs';
import { linkFaults } from './links.mjs';
import { nameFaults } from './names.mjs';
import { paramNameFaults } from './param-names.mjs';
import { soundHouse } from './planted-house.mjs';
import { pureTypeFaults } from './pure-types.mjs';
import { keysNamed, keysOfSources, sourceKeyFaults } from './source-keys.mjs';

it('a sound house passes each of them', () => {
  const house = soundHouse({
    'README.md': '# One, two\n[a](docs/a.md) [b](#one-two) `[c](gone.md)`\n```\n[d](gone.md)\n```\n',
    'docs/a.md': '[up](../README.md#one-two) [out](https://example.org/x) [folder](../packages/core/)',
    'packages/core/src/l.ts': '/** @source iso-1 for the 20 °C */\n/** @source common practice, no source */',
  });
  for (const faultsOf of [
    linkFaults,
    nameFaults,
    paramNameFaults,
    pureTypeFaults,
    sourceKeyFaults,
    longFiles,
  ])
    expect(faultsOf(house)).toEqual([]);
});

it('a link to nowhere is a fault, to a file or to a heading', () => {
  const house = soundHouse({
    'README.md': '# One\n\n[a](gone.md)\n[b](#two)\n![c](c.png)\n\n[d]: gone/d.md\n',
  });
  expect(linkFaults(house).map((fault) => fault.split(' ')[0])).toEqual([
    'README.md:3',
    'README.md:4',
    'README.md:5',
    'README.md:7',
  ]);
});

it.each(['utils.ts', 'helpers/x.ts', 'util.test.ts', 'misc.ts'])('%s is named for nothing', (name) => {
  expect(nameFaults(soundHouse({ [`packages/core/src/${name}`]: '' }))).toHaveLength(1);
});

it.each([
  ['types of Node', { types: ['node'] }],
  ['the DOM', { lib: ['es2023', 'dom'] }],
  ['the worker library', { lib: ['es2023', 'WebWorker'] }],
])('%s in a pure package are a fault', (_, compilerOptions) => {
  const config = JSON.stringify({ extends: '../../tsconfig.base.json', compilerOptions });
  expect(pureTypeFaults(soundHouse({ 'packages/core/tsconfig.json': config }))).toHaveLength(1);
});

it('a base that lets the types of Node in is a fault of every pure package that goes by it', () => {
  const base = JSON.stringify({ compilerOptions: { lib: ['es2023'], types: ['node'] } });
  expect(pureTypeFaults(soundHouse({ 'tsconfig.base.json': base }))).toHaveLength(1);
});

it('a source that is not in the list is a fault, in any place of the line', () => {
  const text =
    '/**\n * L\n *\n * @source iso-2 for the 20 °C\n */\n/** x. @source iso-1 4.2; iso-3 5 */\n/** @source */';
  expect(
    sourceKeyFaults(soundHouse({ 'packages/core/src/l.ts': text })).map((fault) => fault.split(' ')[0]),
  ).toEqual(['packages/core/src/l.ts:4', 'packages/core/src/l.ts:6', 'packages/core/src/l.ts:7']);
});

it('a list of sources that cannot be read is a fault', () => {
  expect(sourceKeyFaults(soundHouse({ 'packages/core/src/sources/ledger.ts': '' }))).toHaveLength(1);
  expect(keysOfSources(soundHouse())).toEqual(new Set(['iso-1']));
});

it('keys are told from the words beside them', () => {
  expect(keysNamed(' jcgm-100 4.3.7, 4.3.9; jcgm-101 6.4.6 for arcsine */')).toEqual([
    'jcgm-100',
    'jcgm-101',
  ]);
  expect(keysNamed(' iso-1 for the 20 °C; the formula is the definition of α')).toEqual(['iso-1']);
  expect(keysNamed(' vogel')).toEqual(['vogel']);
  expect(keysNamed(' common practice, no source: half a turn')).toEqual([]);
});

it('a long file is said, a table is not', () => {
  const text = 'x\n'.repeat(301);
  const house = soundHouse({ 'packages/core/src/a.ts': text, 'packages/core/src/a-table.ts': text });
  expect(longFiles(house)).toEqual(['packages/core/src/a.ts:301 has 301 lines; look for the second concept']);
});

it('a parameter that is explained but not taken is a fault', () => {
  const text = [
    '/**',
    ' * @param a  one',
    ' * @param α  two',
    ' * @param b  three',
    ' */',
    'export function f(a: number, { α = 1 }: { α?: number }, bb: (b1: number) => void) {}',
  ].join('\n');
  expect(paramNameFaults(soundHouse({ 'packages/core/src/l.ts': text }))).toEqual([
    'packages/core/src/l.ts:4 explains b, which the function below does not take',
  ]);
});
