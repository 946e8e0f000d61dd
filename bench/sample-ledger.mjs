// Invented ledgers of any length, the same on every run: a part, then notes about it.
import { newEntryId, nextEntry } from '@fettle/book';

const JOB = '01920000-0000-7000-8000-00000000beef';

function idOf(n) {
  const random = new Uint8Array(10);
  new DataView(random.buffer).setUint32(6, n);
  return newEntryId(1_700_000_000_000 + n, random);
}

/** `count` entries of one device, each after the one before. */
export function sampleLedger(count) {
  const entries = [];
  for (let n = 0; n < count; n++) {
    const pen = { job: JOB, device: 'bench', who: 'Sam', at: '2026-03-01T10:00:00Z', id: idOf(n) };
    // Only the last entry matters to the next of a single device.
    const before = entries.slice(-1);
    const [kind, body] =
      n % 4 === 0
        ? ['part-entered', { part: `part-${n}`, name: `Part ${n}`, condition: 'used' }]
        : ['note', { text: `Looked at part ${n - (n % 4)}, time ${n % 4}` }];
    entries.push(nextEntry(before, pen, kind, body));
  }
  return entries;
}
