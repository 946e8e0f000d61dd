import { calculator } from '../catalogue/calculator.ts';
import { quantity } from '../catalogue/field.ts';
import { clearanceFromRock } from '../geometry/guide-rock.ts';
import { metre } from '../units/si.ts';

export const GUIDE_ROCK = calculator({
  name: 'guide-rock',
  sentence: 'Stem clearance from the rock of a valve in its guide.',
  formula: ['c = rock · L/(L + 2 h)'],
  sources: ['rocking-stem'],
  input: {
    rock: quantity('length', 'Total indicator movement, from one side to the other', { min: 0 }),
    height: quantity('length', 'h, of the indicator above the end of the guide', { min: 0 }),
    guide_length: quantity('length', 'L'),
  },
  output: { clearance: { kind: 'length', doc: 'c, on the diameter' } },
  range:
    'a straight stem in a straight guide; a guide worn to a bell at its ends rocks more than its clearance half way down says',
  example: { rock: '0.014 in', height: '1.0 in', guide_length: '2.25 in' },
  compute: (input) => ({
    results: {
      clearance: clearanceFromRock(metre(input.rock), metre(input.height), metre(input.guide_length)),
    },
  }),
});
