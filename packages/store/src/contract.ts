import { contentHash, type Entry } from '@fettle/book';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { archiveOf } from './archive/archive.ts';
import { imported } from './archive/importing.ts';
import { readArchive } from './archive/reading.ts';
import type { Store } from './store.ts';
import { codesOf, goodValue } from './testing/outcomes.ts';
import { JOB, newerEntry, OTHER_JOB, sampleId, sampleLedger } from './testing/sample-ledger.ts';

/**
 * What every store does, whatever database is under it.
 *
 * @param fresh  an empty store of its own for each call
 */
export function describeStore(name: string, fresh: () => Promise<Store>): void {
  describe(`the store contract on ${name}`, () => {
    let store: Store;
    beforeEach(async () => {
      store = await fresh();
    });
    afterEach(() => store.close());

    const everything = async (of: Store = store): Promise<readonly Entry[]> =>
      goodValue(await of.entries(JOB)).entries;

    it('is empty at first', async () => {
      expect(goodValue(await store.jobs())).toEqual([]);
      expect(goodValue(await store.entries(JOB))).toEqual({ entries: [], last: 0 });
    });

    it('gives entries back equal to what was appended', async () => {
      const ledger = sampleLedger(['Strip down', 'µ, ″ and \u0000 \ud83d\udd27', '{"n": 1e-7}']);
      const appended = goodValue(await store.append({ entries: ledger }));
      expect(appended).toEqual({ added: ledger.map(({ id }) => id), known: [], reused: [] });
      expect(await everything()).toEqual(ledger);
      expect((await everything()).map(contentHash)).toEqual(ledger.map(contentHash));
    });

    it('counts the entries of each job, the one begun first at the top', async () => {
      await store.append({ entries: sampleLedger(['a', 'b'], { job: OTHER_JOB }) });
      await store.append({ entries: sampleLedger(['c'], { first: 10 }) });
      expect(goodValue(await store.jobs())).toEqual([
        { job: OTHER_JOB, entries: 2 },
        { job: JOB, entries: 1 },
      ]);
      expect((await everything()).map(({ body }) => body)).toEqual([{ text: 'c' }]);
    });

    it('takes the same entry again as already there', async () => {
      const ledger = sampleLedger(['a', 'b', 'c']);
      await store.append({ entries: ledger.slice(0, 2) });
      expect(goodValue(await store.append({ entries: ledger }))).toEqual({
        added: [ledger[2]!.id],
        known: [ledger[0]!.id, ledger[1]!.id],
        reused: [],
      });
      expect(await everything()).toEqual(ledger);
    });

    it('keeps another entry under an id of the job beside the first, with the rest of its parcel, and says so', async () => {
      const ledger = sampleLedger(['a', 'b']);
      await store.append({ entries: [ledger[0]] });
      const forged = { ...ledger[0]!, body: { text: 'A' } };
      expect(goodValue(await store.append({ entries: [ledger[1], forged] }))).toEqual({
        added: [ledger[1]!.id, forged.id],
        known: [],
        reused: [forged.id],
      });
      expect(await everything()).toEqual([ledger[0], ledger[1], forged]);
      // Sent again, both are known; a third beside them is kept as well.
      expect(goodValue(await store.append({ entries: [forged, ledger[0]] }))).toEqual({
        added: [],
        known: [forged.id],
        reused: [],
      });
      await store.append({ entries: [{ ...forged, who: 'Kim' }] });
      expect(await everything()).toHaveLength(4);
    });

    it('keeps two entries of one parcel that share an id and differ', async () => {
      const [entry] = sampleLedger(['a']);
      const other = { ...entry!, who: 'Kim' };
      expect(goodValue(await store.append({ entries: [entry, other] })).reused).toEqual([other.id]);
      expect(await everything()).toEqual([entry, other]);
    });

    it('refuses an id that an entry of another job has, and keeps nothing of that parcel', async () => {
      const ledger = sampleLedger(['a', 'b']);
      await store.append({ entries: [ledger[0]] });
      const stolen = { ...ledger[0]!, job: OTHER_JOB };
      const refused = await store.append({ entries: [ledger[1], stolen] });
      expect(refused).toMatchObject({ ok: false, issues: [{ code: 'entry/id-reused', at: '/entries/1' }] });
      expect(await everything()).toEqual([ledger[0]]);
    });

    it('keeps nothing of a parcel with one malformed entry, and says which and where', async () => {
      const ledger = sampleLedger(['a', 'b']);
      const { tick: _, ...torn } = ledger[1]!;
      const refused = await store.append({ entries: [ledger[0], torn] });
      expect(refused).toMatchObject({
        ok: false,
        issues: [{ code: 'entry/malformed', at: '/entries/1/tick' }],
      });
      expect(goodValue(await store.jobs())).toEqual([]);
    });

    it.each([
      ['a number', 7],
      ['nothing', null],
      ['text', 'entry'],
      ['a list', []],
      [
        'a body of a known kind with a key too many',
        { ...sampleLedger(['a'])[0], body: { text: 'a', b: 1 } },
      ],
      ['a number that is not finite', newerEntry([], sampleId(1), { depth: Number.NaN })],
      ['nesting without end', newerEntry([], sampleId(1), nested(5000))],
      ['a key that reading loses', newerEntry([], sampleId(1), JSON.parse('{"__proto__": {"a": 1}}'))],
    ])('refuses %s as an entry', async (_, entry) => {
      const refused = await store.append({ entries: [entry] });
      expect(refused.ok).toBe(false);
      for (const code of codesOf(refused)) expect(code).toMatch(/^(entry|json)\//);
      expect(goodValue(await store.jobs())).toEqual([]);
    });

    it('keeps both entries that claim one page of one device', async () => {
      const ours = sampleLedger(['a', 'ours']);
      const theirs = [ours[0]!, { ...ours[1]!, id: sampleId(9), body: { text: 'theirs' } }];
      await store.append({ entries: ours });
      await store.append({ entries: theirs });
      expect(await everything()).toEqual([...ours, theirs[1]]);
    });

    it('keeps a kind it does not know as it is', async () => {
      const newer = newerEntry([], sampleId(1), { angle: { deg: 12.5 }, list: [null, false, '', {}] });
      goodValue(await store.append({ entries: [newer] }));
      expect(await everything()).toEqual([newer]);
    });

    it('gives only what came after a sequence number', async () => {
      const ledger = sampleLedger(['a', 'b', 'c']);
      await store.append({ entries: ledger.slice(0, 2) });
      const { last } = goodValue(await store.entries(JOB));
      expect(goodValue(await store.entries(JOB, { after: last }))).toEqual({ entries: [], last });
      await store.append({ entries: ledger });
      const next = goodValue(await store.entries(JOB, { after: last }));
      expect(next.entries).toEqual([ledger[2]]);
      expect(next.last).toBeGreaterThan(last);
    });

    it('keeps a sheet under its hash and refuses one whose hash is of something else', async () => {
      const json = { title: 'Sheet', limits: [0.1, 0.25], none: null };
      const hash = contentHash(json);
      expect(goodValue(await store.putSheet(hash, json))).toBe(hash);
      expect(goodValue(await store.putSheet(hash, json))).toBe(hash);
      expect(goodValue(await store.sheet(hash))).toEqual(json);
      const other = contentHash({ title: 'Other' });
      expect(codesOf(await store.putSheet(other, json))).toEqual(['sheet/hash-differs']);
      expect(goodValue(await store.sheet(other))).toBeUndefined();
    });

    it('keeps a photo under the SHA-256 of its bytes', async () => {
      const bytes = new TextEncoder().encode('abc');
      // FIPS 180-4, the example of one block.
      const hash = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
      expect(goodValue(await store.putPhoto(bytes, 'image/png'))).toBe(hash);
      expect(goodValue(await store.putPhoto(bytes, 'image/jpeg'))).toBe(hash);
      expect(goodValue(await store.photo(hash))).toEqual({ media: 'image/png', bytes });
      expect(goodValue(await store.photo(contentHash('none')))).toBeUndefined();
    });

    it('refuses a photo of nothing, and one that does not say what it is', async () => {
      expect(codesOf(await store.putPhoto(new Uint8Array(), 'image/png'))).toEqual(['photo/size']);
      expect(codesOf(await store.putPhoto(new Uint8Array(3), 'png'))).toEqual(['photo/media']);
    });

    it('keeps entries, sheets and photos of a parcel together or not at all', async () => {
      const sheet = { hash: contentHash({ a: 1 }), json: { a: 1 } };
      const photo = { hash: contentHash({}), media: 'image/png', bytes: new Uint8Array([1]) };
      const refused = await store.append({ entries: sampleLedger(['a']), sheets: [sheet], photos: [photo] });
      expect(refused).toMatchObject({ ok: false, issues: [{ code: 'photo/hash-differs', at: '/photos/0' }] });
      expect(await everything()).toEqual([]);
      expect(goodValue(await store.sheet(sheet.hash))).toBeUndefined();
    });

    it('keeps parcels of many entries, more than one statement can carry', async () => {
      const ledger = sampleLedger(Array.from({ length: 1203 }, (_, n) => `note ${n}`));
      expect(goodValue(await store.append({ entries: ledger })).added).toHaveLength(1203);
      expect(goodValue(await store.append({ entries: ledger })).known).toHaveLength(1203);
      expect(await everything()).toEqual(ledger);
    });

    it('is the union of what is appended, in whatever pieces, order and repetition it comes', async () => {
      const ledger = sampleLedger(Array.from({ length: 12 }, (_, n) => `note ${n}`));
      const parcels = fc.array(fc.array(fc.nat(ledger.length - 1), { maxLength: 8 }), { maxLength: 6 });
      await fc.assert(
        fc.asyncProperty(parcels, async (pieces) => {
          const own = await fresh();
          try {
            const expected = new Set<string>();
            for (const piece of pieces) {
              const entries = piece.map((n) => ledger[n]!);
              const { added, known } = goodValue(await own.append({ entries }));
              const ids = new Set(entries.map(({ id }) => id));
              expect(new Set(added)).toEqual(new Set([...ids].filter((id) => !expected.has(id))));
              expect(new Set(known)).toEqual(new Set([...ids].filter((id) => expected.has(id))));
              for (const id of ids) expected.add(id);
            }
            const there = await everything(own);
            expect(there.map(({ id }) => id).sort()).toEqual([...expected].sort());
            for (const entry of there) expect(ledger).toContainEqual(entry);
          } finally {
            await own.close();
          }
        }),
        { numRuns: 40 },
      );
    });

    it('lets a job out and in and out again with the same bytes, any entry as it was', async () => {
      const bodies = fc.dictionary(
        fc.string().filter((key) => key !== '__proto__'),
        fc.jsonValue({ maxDepth: 4 }),
        { maxKeys: 5 },
      );
      await fc.assert(
        fc.asyncProperty(fc.array(bodies, { minLength: 1, maxLength: 6 }), async (some) => {
          const ledger: Entry[] = [];
          // Through text once, as anything from outside comes: there −0 is 0.
          for (const body of some)
            ledger.push(newerEntry(ledger, sampleId(ledger.length + 1), JSON.parse(JSON.stringify(body))));
          const [from, into] = [await fresh(), await fresh()];
          try {
            goodValue(await from.append({ entries: ledger }));
            const out = goodValue(await archiveOf(from, JOB));
            const content = goodValue(readArchive(out));
            expect(goodValue(await imported(into, content)).added).toHaveLength(ledger.length);
            expect(goodValue(await imported(into, content)).added).toHaveLength(0);
            expect((await everything(into)).map(contentHash)).toEqual(ledger.map(contentHash));
            expect(goodValue(await archiveOf(into, JOB))).toEqual(out);
          } finally {
            await from.close();
            await into.close();
          }
        }),
        { numRuns: 40 },
      );
    });
  });
}

function nested(depth: number): Record<string, unknown> {
  let value: Record<string, unknown> = {};
  for (let level = 0; level < depth; level++) value = { value };
  return value;
}
