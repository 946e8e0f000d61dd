import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isMeantBy } from './id-pattern.ts';
import { LAYOUTS } from './layout.ts';
import { type Outline, outlineSheet } from './outline.ts';
import { placeCount, positionsOf } from './places.ts';
import { readSheet } from './read-sheet.ts';

const four: Outline = { layout: 'inline', cylinders: 4, mains: 3, title: 'Mine' };
const sheetOf = (outline: Outline) => {
  const made = outlineSheet(outline);
  if (!made.ok) throw new Error(JSON.stringify(made.issues));
  return made.value;
};

it.each<Outline>([
  four,
  { layout: 'inline', cylinders: 1, mains: 2, title: 'Single' },
  { layout: 'v', cylinders: 8, mains: 5, title: 'Eight' },
  { layout: 'twin', cylinders: 2, mains: 2, title: 'Twin' },
])('the outline $title is a sound sheet as it stands', (outline) => {
  expect(readSheet(sheetOf(outline))).toEqual({ ok: true, value: sheetOf(outline) });
});

it('an outline holds no number that only a manual could give', () => {
  const sheet = sheetOf(four);
  for (const c of sheet.characteristics) {
    expect(c.limits).toBeUndefined();
    expect(c.no_limits).toBe('not given yet');
  }
  expect(sheet.fasteners).toEqual([]);
  expect(sheet.oil).toBeUndefined();
});

it('a four with three mains has 24 bore readings, 12 main journal readings and 16 of the rods', () => {
  const sheet = sheetOf(four);
  const count = (id: string) => placeCount(sheet, sheet.characteristics.find((c) => c.id === id)!);
  expect([count('bore.size'), count('main.journal'), count('rod.journal')]).toEqual([24, 12, 16]);
  expect(positionsOf(sheet).filter(({ id }) => id.startsWith('rod-'))).toHaveLength(4);
});

it('every characteristic is hidden by one cover, so that none is closed up unread', () => {
  for (const outline of [four, { ...four, layout: 'v', cylinders: 8, mains: 5 } as const]) {
    const sheet = sheetOf(outline);
    for (const { id } of sheet.characteristics)
      expect(
        sheet.covers.filter((cover) => cover.hides.characteristics.some((pattern) => isMeantBy(pattern, id))),
        id,
      ).toHaveLength(1);
  }
});

describe('what no engine has is refused', () => {
  it.each<[Partial<Outline>, string, string]>([
    [{ cylinders: 0 }, 'outline/cylinders', '0'],
    [{ cylinders: 2.5 }, 'outline/cylinders', '2.5'],
    [{ cylinders: Number.NaN }, 'outline/cylinders', 'NaN'],
    [{ mains: 6 }, 'outline/mains', '6'],
    [{ mains: 1 }, 'outline/mains', '1'],
    [{ layout: 'v', cylinders: 7 }, 'outline/cylinders', '7'],
    [{ layout: 'twin' }, 'outline/cylinders', '4'],
    [{ layout: 'ring' as 'v' }, 'outline/layout', 'ring'],
    [{ title: ' ' }, 'outline/title', '1 characters'],
  ])('%j', (change, code, got) => {
    expect(outlineSheet({ ...four, ...change })).toMatchObject({ ok: false, issues: [{ code, got }] });
  });
});

it('whatever numbers are given, the outline is refused or sound', () => {
  const number = fc.oneof(fc.integer({ min: -1, max: 20 }), fc.double());
  fc.assert(
    fc.property(fc.constantFrom(...LAYOUTS), number, number, (layout, cylinders, mains) => {
      const made = outlineSheet({ layout, cylinders, mains, title: 'x' });
      if (made.ok) expect(readSheet(made.value).ok).toBe(true);
      else expect(made.issues[0]?.wanted).not.toBe('');
    }),
  );
});
