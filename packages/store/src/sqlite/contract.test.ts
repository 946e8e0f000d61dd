import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import { describeStore } from '../contract.ts';
import { goodValue } from '../testing/outcomes.ts';
import { openSqliteStore } from './sqlite-store.ts';

const folder = mkdtempSync(join(tmpdir(), 'fettle-store-'));
afterAll(() => rmSync(folder, { recursive: true }));

let made = 0;
describeStore('SQLite', async () => goodValue(await openSqliteStore(join(folder, `${++made}.sqlite`))));
