import { calculator } from '../catalogue/calculator.ts';
import { optionalQuantity, quantity } from '../catalogue/field.ts';
import { filingFor, GAP_PER_BORE, ringGapIn } from '../geometry/ring-gap.ts';
import { metre } from '../units/si.ts';

export const RING_GAP = calculator({
  name: 'ring-gap',
  sentence: 'Gap of a ring in the bore it will run in, and what to file off.',
  formula: ['g = g₁ + π (D − D₁)', 'filing = g wanted − g, never below nothing', 'usual: .003 to .004 D'],
  sources: ['ring-circumference', 'practice-sizes'],
  input: {
    gap: quantity('length', 'g₁, as measured with the ring square in the bore', { min: 0 }),
    measured_in: quantity('length', 'D₁, of the bore it was measured in'),
    working_bore: quantity('length', 'D, where it will run'),
    wanted: optionalQuantity('length', 'Least gap wanted at the working size', { min: 0 }),
  },
  output: {
    working_gap: { kind: 'length', doc: 'g; below zero the ends would meet' },
    filing: { kind: 'length', doc: 'Off the ends together', optional: true },
    usual_least: { kind: 'length', doc: '.003 of the diameter' },
    usual_most: { kind: 'length', doc: '.004 of the diameter' },
  },
  range: 'a ring that lies against the bore all round; the usual gaps are common practice, no source',
  example: { gap: '0.006 in', measured_in: '3.5300 in', working_bore: '3.5305 in', wanted: '0.010 in' },
  compute: (input) => {
    const bore = metre(input.working_bore);
    const gap = ringGapIn(metre(input.gap), metre(input.measured_in), bore);
    return {
      results: {
        working_gap: gap,
        filing: input.wanted === undefined ? undefined : filingFor(gap, metre(input.wanted)),
        usual_least: GAP_PER_BORE.least * bore,
        usual_most: GAP_PER_BORE.most * bore,
      },
      cautions:
        gap < 0
          ? [
              {
                code: 'ring-gap/ends-meet',
                message: 'The ends meet before the ring lies against this bore: file it, or it will break.',
              },
            ]
          : [],
    };
  },
});
