import { expect, it } from 'vitest';
import { bracketTried, leafAdvised, leavesOwned } from './leaves.ts';

const owned = leavesOwned(['0.005 in', '0.003 in', '0.004 in', '0.006 in', 'bent']);
const limits = { upper: 0.0045 * 0.0254 };

it('puts the leaves in order and leaves out what is no thickness', () => {
  expect(owned.map(({ text }) => text)).toEqual(['0.003 in', '0.004 in', '0.005 in', '0.006 in']);
});

it('brackets the gap by the thickest that goes and the thinnest that does not', () => {
  const tried = { '0.003 in': 'goes', '0.004 in': 'goes', '0.006 in': 'stops' } as const;
  expect(bracketTried(owned, tried)).toEqual({ ok: true, value: { goes: 0.0001016, stops: 0.0001524 } });
});

it('advises a leaf between the two, and none where none would decide', () => {
  expect(leafAdvised(owned, { '0.003 in': 'goes', '0.006 in': 'stops' }, limits)?.text).toMatch(
    /0.00[45] in/,
  );
  // .004 goes, .005 does not: the limit .0045 lies between, and no leaf does.
  expect(leafAdvised(owned, { '0.004 in': 'goes', '0.005 in': 'stops' }, limits)).toBeUndefined();
  // .005 goes: over the limit, so nothing is left to find out.
  expect(leafAdvised(owned, { '0.005 in': 'goes' }, limits)).toBeUndefined();
});

it('does not advise on answers that contradict each other', () => {
  const tried = { '0.005 in': 'goes', '0.004 in': 'stops' } as const;
  expect(bracketTried(owned, tried)).toMatchObject({ ok: false, issues: [{ code: 'feeler/contradiction' }] });
  expect(leafAdvised(owned, tried, limits)).toBeUndefined();
});
