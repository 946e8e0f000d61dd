import type { Issue } from '@fettle/core';
import { daysOf } from '../plan/lead-time.ts';

/** A time in days: if all goes well, most likely, and not exceeded unless something breaks. */
export interface ThreePoint {
  readonly soonest: number;
  readonly likely: number;
  readonly latest: number;
  /** Whether anybody said how far it may stray; a time without is taken at its word. */
  readonly spread: boolean;
}

interface SaidTimes {
  readonly likely?: string | undefined;
  readonly soonest?: string | undefined;
  readonly latest?: string | undefined;
}

/** Times as people say them; what was not said is the most likely one. Undefined where they do not read. */
export function threePoint({ likely, soonest, latest }: SaidTimes): ThreePoint | undefined {
  const most = likely === undefined ? 0 : daysOf(likely);
  const least = soonest === undefined ? most : daysOf(soonest);
  const last = latest === undefined ? most : daysOf(latest);
  if (most === undefined || least === undefined || last === undefined) return undefined;
  if (least > most || most > last) return undefined;
  return { soonest: least, likely: most, latest: last, spread: last > least };
}

/** What is wrong with times that were said, each under its own name. */
export function timeIssues(said: SaidTimes, names: Record<keyof SaidTimes, string>): Issue[] {
  const issues = (['likely', 'soonest', 'latest'] as const).flatMap((key): Issue[] => {
    const text = said[key];
    if (text === undefined || daysOf(text) !== undefined) return [];
    return [
      {
        code: 'time/unreadable',
        at: names[key],
        got: text,
        wanted: 'a number of days or weeks',
        message: `"${text}" is no time that can be reckoned with. Say it as "10 days" or "2 weeks".`,
      },
    ];
  });
  if (issues.length > 0 || threePoint(said)) return issues;
  const got = [said.soonest, said.likely ?? '0 days', said.latest].filter((one) => one !== undefined);
  return [
    {
      code: 'time/out-of-order',
      at: names.likely,
      got: got.join(', '),
      wanted: 'soonest, most likely, latest, each no less than the one before',
      message: `The times ${got.join(', ')} are out of order. The soonest is at most the most likely, and that at most the latest.`,
    },
  ];
}

/**
 * A draw from the triangle over soonest and latest with its top at the most likely, by its inverse distribution:
 *
 *     t = a + √(u (b − a)(m − a))          for u under (m − a)/(b − a)
 *     t = b − √((1 − u)(b − a)(b − m))     above
 *
 * @param u  even between 0 and 1
 * @source   jcgm-101 6.4.5 has the symmetric one; the general one is the definition of the distribution
 */
export function triangularDays({ soonest: a, likely: m, latest: b }: ThreePoint, u: number): number {
  if (b <= a) return m;
  return u < (m - a) / (b - a)
    ? a + Math.sqrt(u * (b - a) * (m - a))
    : b - Math.sqrt((1 - u) * (b - a) * (b - m));
}

/**
 * Mean and variance by the rule of PERT, which stands for a beta distribution of a certain shape:
 *
 *     te = (a + 4 m + b) / 6     var = ((b − a) / 6)²
 *
 * @source  from memory; published 1959 with the method, in every handbook of operations research since
 */
export const pertMoments = ({ soonest: a, likely: m, latest: b }: ThreePoint) => ({
  mean: (a + 4 * m + b) / 6,
  variance: ((b - a) / 6) ** 2,
});
