import * as z from 'zod';
import { calculator } from '../catalogue/calculator.ts';
import { structure } from '../catalogue/field.ts';
import { leastSquaresCircle } from '../form/circle.ts';
import type { Caution } from '../issue.ts';
import { quantityIn } from '../units/quantity-in.ts';

/** Points that see less of the circle than this fix its centre badly. */
const SHORT_ARC = Math.PI;

const coordinate = quantityIn('length', {});

export const ROUND_FORM = calculator({
  name: 'round-form',
  sentence: 'The least-squares circle of points on a bore or journal, and how far from round they are.',
  formula: [
    'minimise Σ (√((x − a)² + (y − b)²) − R)²',
    'out of round = greatest less smallest distance from (a, b)',
  ],
  sources: ['gander-golub-strebel', 'iso-12181'],
  input: {
    points: structure(
      z
        .array(z.tuple([coordinate, coordinate]))
        .min(3)
        .max(10_000),
      'x and y of each point; any zero will do',
    ),
  },
  output: {
    centre_x: { kind: 'length', doc: 'a' },
    centre_y: { kind: 'length', doc: 'b' },
    radius: { kind: 'length', doc: 'R' },
    out_of_round: {
      kind: 'length',
      doc: 'radial: an oval’s difference of two diameters is twice it, and two points opposite cannot see three lobes',
    },
  },
  range: 'three points or more, not all on one line; a short arc fixes the centre badly',
  example: {
    points: [
      ['44.451 mm', '0 mm'],
      ['0 mm', '44.446 mm'],
      ['-44.452 mm', '0 mm'],
      ['0 mm', '-44.447 mm'],
    ],
  },
  compute: ({ points }) => {
    const circle = leastSquaresCircle(points);
    if (!circle)
      return {
        issues: [
          {
            code: 'round-form/no-circle',
            at: 'points',
            got: 'points all on one line, or all at one place',
            wanted: 'three or more points round a circle',
            message: 'No circle can be told from a line through these points. Take points further round.',
          },
        ],
      };
    const { x, y, radius, outOfRound } = circle;
    return {
      results: { centre_x: x, centre_y: y, radius, out_of_round: outOfRound },
      cautions: cautionsOf(points, x, y),
    };
  },
});

function cautionsOf(points: readonly (readonly [number, number])[], x: number, y: number): Caution[] {
  const angles = points.map(([px, py]) => Math.atan2(py - y, px - x)).sort((a, b) => a - b);
  const gaps = angles.map((angle, i) => (angles[i + 1] ?? angles[0]! + 2 * Math.PI) - angle);
  const cautions: Caution[] = [];
  if (2 * Math.PI - Math.max(...gaps) < SHORT_ARC)
    cautions.push({
      code: 'round-form/short-arc',
      message: 'The points see less than half of the circle: centre and radius are badly fixed.',
    });
  if (points.length === 3)
    cautions.push({
      code: 'round-form/three-points',
      message: 'A circle goes through any three points: they say nothing about how round it is.',
    });
  return cautions;
}
