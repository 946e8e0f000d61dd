import { describe, expect, it } from 'vitest';
import { BEARING_RUNNERS } from './bearings.ts';
import { Given, misses, publishedCases, type Runners } from './case.ts';
import { FASTENER_RUNNERS } from './fasteners.ts';
import { FORM_AND_MATCHING_RUNNERS } from './form-and-matching.ts';
import { LATER } from './later.ts';
import { LUBRICATION_RUNNERS } from './lubrication.ts';
import { METROLOGY_RUNNERS } from './metrology.ts';
import { PRACTICE_RUNNERS } from './practice.ts';
import { PRIMING_RUNNERS } from './priming.ts';
import { REPEATABILITY_RUNNERS } from './repeatability.ts';
import { SIZE_RUNNERS } from './sizes.ts';
import { SPRING_RUNNERS } from './springs.ts';

const FILES: readonly (readonly [string, Runners])[] = [
  ['lubrication', LUBRICATION_RUNNERS],
  ['priming', PRIMING_RUNNERS],
  ['journal-bearing', BEARING_RUNNERS],
  ['fasteners', { ...FASTENER_RUNNERS, ...SPRING_RUNNERS }],
  ['metrology-geometry', METROLOGY_RUNNERS],
  ['repeatability', REPEATABILITY_RUNNERS],
  ['form-and-matching', FORM_AND_MATCHING_RUNNERS],
  ['sizes', SIZE_RUNNERS],
  ['practice', PRACTICE_RUNNERS],
  ['later', {}],
];

for (const [file, runners] of FILES) {
  describe(`published ${file} cases`, () => {
    for (const published of publishedCases(file)) {
      const later = Object.entries(LATER).find(([prefix]) => published.id.startsWith(prefix));
      const prefix = Object.keys(runners)
        .filter((key) => published.id.startsWith(key))
        .sort((a, b) => b.length - a.length)[0];
      if (later) {
        // Said, not skipped in silence: the reason stands in the title, and a runner for it would be a contradiction.
        it(`${published.id} is not due: ${later[1]}`, () => expect(prefix).toBeUndefined());
        continue;
      }
      it(`${published.topic} · ${published.id} · ${published.confidence} · ${published.source}`, () => {
        const run = prefix === undefined ? undefined : runners[prefix];
        if (!run) throw new Error(`nothing answers the published case ${published.id}`);
        expect(misses(published, run(new Given(published)))).toEqual([]);
      });
    }
  });
}
