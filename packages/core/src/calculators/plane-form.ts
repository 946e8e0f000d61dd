import * as z from 'zod';
import { calculator } from '../catalogue/calculator.ts';
import { structure } from '../catalogue/field.ts';
import { leastSquaresPlane, minimumZonePlane, zoneWeights } from '../form/flatness.ts';
import type { Caution } from '../issue.ts';
import { quantityIn } from '../units/quantity-in.ts';

const coordinate = quantityIn('length', {});

/** Beyond this the band along z and the one square to the plane are no longer one. */
const MOST_TILT = 0.02;

export const PLANE_FORM = calculator({
  name: 'plane-form',
  sentence: 'How flat a face is from heights probed over it: the least band between two parallel planes.',
  formula: [
    'minimise t subject to |z − a x − b y − c| ≤ t, by linear programming',
    'flatness = 2 t ∕ √(1 + a² + b²)',
    'least squares: minimise Σ (z − a x − b y − c)²',
  ],
  sources: ['iso-1101'],
  input: {
    points: structure(
      z
        .array(z.tuple([coordinate, coordinate, coordinate]))
        .min(3)
        .max(400),
      'x, y and height of each point; any zero and any small tilt will do',
    ),
  },
  output: {
    flatness: { kind: 'length', doc: 'minimum zone' },
    least_squares_flatness: { kind: 'length', doc: 'band about the least-squares plane; never less' },
    slope_x: { kind: 'ratio', doc: 'a, of the minimum-zone plane' },
    slope_y: { kind: 'ratio', doc: 'b' },
    middle: { kind: 'length', doc: 'c, height of the middle of the band over x = y = 0' },
    weights: {
      kind: 'value',
      doc: 'how the flatness moves with each height, in the order given; they sum to nothing, so a common error drops out',
    },
    tilt: { kind: 'ratio', doc: 'slope of the minimum-zone plane, √(a² + b²)' },
  },
  range:
    'a face set up nearly level; four points or more, not all on one line; it sees only where it was probed',
  example: {
    points: [
      ['0 mm', '0 mm', '0 mm'],
      ['100 mm', '0 mm', '0.02 mm'],
      ['0 mm', '100 mm', '0.01 mm'],
      ['100 mm', '100 mm', '0.07 mm'],
    ],
  },
  compute: ({ points }) => {
    const [zone, squares] = [minimumZonePlane(points), leastSquaresPlane(points)];
    const weights = zoneWeights(points);
    if (!zone || !squares || !weights)
      return {
        issues: [
          {
            code: 'plane-form/no-plane',
            at: 'points',
            got: 'points all on one line, or all at one place',
            wanted: 'four or more points spread over the face',
            message:
              'No plane can be told from a line through these points. Take points further to the side.',
          },
        ],
      };
    const tilt = Math.hypot(zone.a, zone.b);
    const cautions: Caution[] = [];
    if (points.length === 3)
      cautions.push({
        code: 'plane-form/three-points',
        message: 'A plane goes through any three points: they say nothing about how flat the face is.',
      });
    if (tilt > MOST_TILT)
      cautions.push({
        code: 'plane-form/steep',
        message:
          'The face is set up so steep that the band is only near the least. Level it and probe again.',
      });
    return {
      results: {
        flatness: zone.flatness,
        least_squares_flatness: squares.flatness,
        slope_x: zone.a,
        slope_y: zone.b,
        middle: zone.c,
        weights,
        tilt,
      },
      cautions,
    };
  },
});
