import { type Doubt, OWN_SHARE } from './doubts.ts';
import { type Family, WRONG_GAUGE } from './family.ts';
import type { Known } from './faulty-network.ts';
import { UNMEASURED_TAILS } from './hypotheses.ts';
import { RESOLVED, UNTOLD } from './told-apart.ts';

/** One thing a diagnosis takes for granted, as the user may ask to see it. */
export interface Assumption {
  readonly about: string;
  readonly taken: string;
}

const figure = (value: number): string => String(Number(value.toPrecision(3)));

/** Everything assumed, no source for any of it: what each fault is taken to be and how likely, how bad, and what the model doubts. */
export function assumptionsOf(
  families: readonly Family[],
  doubts: readonly Doubt[],
  known: Known,
): Assumption[] {
  return [
    ...families.map(({ name, prior, severity, model, kind }) => ({
      about: name,
      taken: [
        `${figure(prior * 100)} % before any reading`,
        model,
        ...(severity
          ? [
              `${figure(severity.from)} to ${figure(severity.to)} ${severity.of}, evenly${severity.by === 'logarithm' ? ' in the logarithm' : ''}`,
            ]
          : []),
        ...(kind === 'gauge'
          ? [
              `its zero out by ±${WRONG_GAUGE.offset / 1e3} kPa or its scale by ±${WRONG_GAUGE.scale * 100} %, one deviation`,
            ]
          : []),
      ].join('; '),
    })),
    ...doubts.map(({ name, words }) => ({ about: name, taken: `${words}, one deviation` })),
    {
      about: 'each predicted pressure by itself',
      taken: `±${OWN_SHARE * 100} %, one deviation: speed and temperature as read, what the model leaves out`,
    },
    ...(known === 'before-strip'
      ? [
          {
            about: 'readings far from a prediction',
            taken: `spread as a t of ${UNMEASURED_TAILS} degrees rather than a normal, since doubts are wide where nothing was measured`,
          },
        ]
      : []),
    {
      about: 'what cannot be told apart',
      taken: `faults whose odds the readings move by less than ${UNTOLD} times, and whose fits to them lie within ${RESOLVED} of the gauge’s deviations`,
    },
    { about: 'faults', taken: 'one at a time, besides ordinary wear; two at once are not weighed' },
  ];
}
