import { expect, it } from 'vitest';
import { mapKindOf } from './map-kind.ts';

it('goes by what the trade calls a thing, and by whole words', () => {
  const kinds = {
    'Bore bore.diameter bore-{cylinder}': 'bores',
    'Main journal crank.main-journal': 'journals',
    'Valve guide bore guide.bore': 'valves',
    'Valve spring load': 'springs',
    'Cam lobe lift cam.lobe': 'lobes',
    'Deck flatness block.deck': 'faces',
    'Backlash timing.backlash': 'others',
    Boredom: 'others',
  };
  expect(Object.fromEntries(Object.keys(kinds).map((words) => [words, mapKindOf(words)]))).toEqual(kinds);
});
