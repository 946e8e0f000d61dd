import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { placeFrom, placesOf, placeText, positionAt, positionsOf } from './places.ts';

const sheet = { axes: { rod: ['1', '2', '3'], end: ['front', 'rear'], turn: ['0', '90'] } };
const journal = { id: 'rod.journal', places: ['rod', 'end', 'turn'] };

it('places go through the axes as the bench does, the last one fastest', () => {
  expect(
    placesOf(sheet, journal)
      .map((place) => placeText(place))
      .slice(0, 5),
  ).toEqual(['1/front/0', '1/front/90', '1/rear/0', '1/rear/90', '2/front/0']);
  expect(placesOf(sheet, journal)).toHaveLength(3 * 2 * 2);
});

it('a characteristic keeps to the values it has, in the order of the sheet', () => {
  expect(placesOf(sheet, { places: ['rod'], only: { rod: ['3', '1'] } })).toEqual([
    { rod: '1' },
    { rod: '3' },
  ]);
});

it('one thing without places has one place', () => {
  expect(placesOf(sheet, { places: [] })).toEqual([{}]);
});

it('a position with places is one position for each', () => {
  expect(
    positionsOf({ ...sheet, positions: [{ id: 'rod-{rod}', name: 'Rod {rod}', places: ['rod'] }] }),
  ).toEqual([
    { id: 'rod-1', name: 'Rod 1', place: { rod: '1' }, pattern: 'rod-{rod}' },
    { id: 'rod-2', name: 'Rod 2', place: { rod: '2' }, pattern: 'rod-{rod}' },
    { id: 'rod-3', name: 'Rod 3', place: { rod: '3' }, pattern: 'rod-{rod}' },
  ]);
  expect(positionAt('rod-{rod}-{constructor}', { rod: '2' })).toBe('rod-2-{constructor}');
});

it.each([
  ['2/rear/90', { rod: '2', end: 'rear', turn: '90' }],
  ['2', { rod: '2' }],
  [' 2 / Rear ', { rod: '2', end: 'rear' }],
  ['turn=90, rod=3', { rod: '3', turn: '90' }],
  ['', {}],
])('"%s" is understood', (text, place) => {
  expect(placeFrom(sheet, journal, text)).toEqual({ ok: true, value: place });
});

it.each(['4', '1/2/3/4', 'rod=2,rod=3', 'rod=2,rear', 'valve=2', '2//90', '1/rear/90/0', '=', '/'])(
  '"%s" is refused with what would do',
  (text) => {
    const read = placeFrom(sheet, journal, text);
    expect(read).toMatchObject({ ok: false, issues: [{ code: 'place/unknown', at: 'rod.journal' }] });
    if (!read.ok) expect(read.issues[0]?.wanted).toContain('rod (1, 2, 3)');
  },
);

it('every place is found again by its short writing', () => {
  fc.assert(
    fc.property(fc.constantFrom(...placesOf(sheet, journal)), (place) => {
      expect(placeFrom(sheet, journal, placeText(place))).toEqual({ ok: true, value: place });
    }),
  );
});
