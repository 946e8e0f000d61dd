import { expect, it } from 'vitest';
import { costFrontierSvg, type Picture } from './index.ts';

const DESK: Picture = { title: 'A picture', desc: 'What it says.', width: 800, profile: 'desk' };

const drawn = costFrontierSvg(
  {
    priceAxis: 'price',
    chanceAxis: 'chance, %',
    points: [
      { price: 200, chance: 0.9, name: 'dearer' },
      { price: 100, chance: 0.4, name: 'cheap' },
    ],
    cap: { price: 300, text: 'cap' },
  },
  DESK,
);

const sets = [...drawn.matchAll(/data-mark="set" data-x="([\d.]+)" data-y="([\d.]+)"/g)].map(([, x, y]) => ({
  x: Number(x),
  y: Number(y),
}));

it('puts what costs more to the right and what is surer higher', () => {
  const [cheap, dearer] = sets;
  expect(dearer!.x).toBeGreaterThan(cheap!.x);
  expect(dearer!.y).toBeLessThan(cheap!.y);
});

it('goes level until the next set is paid for, then up', () => {
  const way = /data-mark="frontier-steps"><polyline points="([^"]+)"/.exec(drawn)![1]!;
  const corners = way.split(' ').map((corner) => corner.split(',').map(Number));
  const [cheap, dearer] = sets;
  expect(corners.slice(0, 3)).toEqual([
    [cheap!.x, cheap!.y],
    [dearer!.x, cheap!.y],
    [dearer!.x, dearer!.y],
  ]);
});

it('draws the cap past the sets that cost less', () => {
  const at = Number(/data-mark="cap"><line x1="([\d.]+)"/.exec(drawn)![1]);
  expect(at).toBeGreaterThan(Math.max(...sets.map(({ x }) => x)));
});
