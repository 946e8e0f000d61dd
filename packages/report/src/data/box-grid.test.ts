import { placesOf } from '@fettle/book';
import { expect, it } from 'vitest';
import { boxGrid } from './box-grid.ts';

const axes = { valve: ['1', '2', '3', '4', '5', '6'], end: ['front', 'rear'], turn: ['0', '90'] };
const at = (...places: string[]) => boxGrid(placesOf({ axes }, { places }), places);

it('gives one box to what has no places, and lines of four to what has one axis', () => {
  expect(at()).toEqual({ heads: [], down: '', lines: [{ name: '', boxes: [''] }] });
  expect(at('valve').lines.map(({ boxes }) => boxes)).toEqual([
    ['1', '2', '3', '4'],
    ['5', '6'],
  ]);
});

it('makes columns of as many last axes as fit side by side', () => {
  expect(at('valve', 'end', 'turn')).toMatchObject({
    heads: ['front/0', 'front/90', 'rear/0', 'rear/90'],
    down: 'valve',
  });
  expect(at('end', 'valve')).toEqual({
    heads: [],
    down: '',
    lines: [0, 1, 2].map((k) => ({
      name: '',
      boxes: placesOf({ axes }, { places: ['end', 'valve'] })
        .slice(4 * k, 4 * k + 4)
        .map(({ end, valve }) => `${end}/${valve}`),
    })),
  });
});

it('leaves a hole for what is read, and lists the places where a table would be mostly holes', () => {
  const places = placesOf({ axes }, { places: ['valve', 'end'] });
  const some = boxGrid(
    places.filter(({ valve, end }) => valve === '1' || end === 'rear'),
    ['valve', 'end'],
  );
  expect(some.lines[0]).toEqual({ name: '1', boxes: ['', ''] });
  expect(some.lines[1]).toEqual({ name: '2', boxes: [null, ''] });
  const few = boxGrid([places[0]!, places[3]!], ['valve', 'end']);
  expect(few).toEqual({ heads: [], down: '', lines: [{ name: '', boxes: ['1/front', '2/rear'] }] });
});
