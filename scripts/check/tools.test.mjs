import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { styleFaults, typeFaults, unusedFaults } from './tools.mjs';

const OURS = fileURLToPath(new URL('../../', import.meta.url));
let root;

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'fettle-check-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

function plant(files) {
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
}

it('a cycle of imports, an ill format and a warning are faults by our own settings', async () => {
  copyFileSync(join(OURS, 'biome.json'), join(root, 'biome.json'));
  plant({
    'a.ts': "import { b } from './b.ts';\n\nexport const a = () => b;\n",
    'b.ts': "import { a } from './a.ts';\n\nexport const b = () => a;\n",
    'c.ts': 'export const c   = 1\n',
    'd.ts': 'export function d(unused: number) {}\n',
    'sound.ts': 'export const sound = 1;\n',
  });
  const faults = await styleFaults(root);
  expect(faults.filter((fault) => /^a\.ts:1 .*noImportCycles/.test(fault))).toHaveLength(1);
  expect(faults.filter((fault) => /^c\.ts:1 .*formatter/.test(fault))).toHaveLength(1);
  expect(faults.filter((fault) => /^d\.ts:1 .*noUnusedFunctionParameters/.test(fault))).toHaveLength(1);
  expect(faults.filter((fault) => fault.startsWith('sound.ts'))).toEqual([]);
});

it('settings that cannot be read are a fault, not silence', async () => {
  plant({ 'biome.json': '{ "nonsense": true }', 'a.ts': 'export const a = 1;\n' });
  expect(await styleFaults(root)).not.toEqual([]);
  plant({ 'package.json': '{', 'knip.json': '{' });
  expect(await unusedFaults(root)).not.toEqual([]);
  expect(await typeFaults(root)).not.toEqual([]);
});

it('what a browser or Node alone knows does not compile in a pure package', async () => {
  copyFileSync(join(OURS, 'tsconfig.base.json'), join(root, 'tsconfig.base.json'));
  plant({
    'package.json': '{ "type": "module" }',
    'tsconfig.json':
      '{ "extends": "./tsconfig.base.json", "compilerOptions": { "rootDir": "src", "outDir": "dist" }, "include": ["src"] }',
    'src/a.ts': "export const a = 1;\nconsole.log('x');\nwindow.close();\nprocess.exit();\n",
  });
  const faults = await typeFaults(root);
  expect(faults.map((fault) => fault.split(' ')[0])).toEqual(['src/a.ts:2', 'src/a.ts:3', 'src/a.ts:4']);
});

it('an unused file, export and dependency are faults', async () => {
  plant({
    'package.json': '{ "name": "x", "type": "module", "dependencies": { "left-over": "1.0.0" } }',
    'knip.json': '{ "entry": ["a.js"], "project": ["*.js"] }',
    'a.js': "import { used } from './b.js';\n\nused();\n",
    'b.js': 'export const used = () => 1;\nexport const spare = 2;\n',
    'c.js': 'export const c = 1;\n',
  });
  const faults = await unusedFaults(root);
  expect(faults).toContain('b.js:2 exports what nothing imports: spare');
  expect(faults).toContain('c.js:1 is used by nothing');
  expect(faults.some((fault) => /^package\.json:1 .*left-over/.test(fault))).toBe(true);
});
