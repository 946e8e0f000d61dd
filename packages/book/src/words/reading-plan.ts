import type { TooCoarse } from '../reading-plan/first-reading.ts';
import type { LeftOpen, PlanStep, ReadingPlan } from '../reading-plan/plan.ts';
import type { Place } from '../sheet/places.ts';
import { placeText } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { chance } from './money.ts';
import { uncertaintyWords } from './quantity.ts';

/** Readings of one thing with one instrument, one after the other. */
export interface PlanRun {
  readonly what: string;
  readonly where: readonly string[];
  readonly with: string;
  readonly minutes: number;
  /** When it is done, from the start [min]. */
  readonly at: number;
  /** What is decided by then that was not before. */
  readonly decides: readonly string[];
  readonly steps: readonly PlanStep[];
}

type PlaceWords = (characteristic: Characteristic, place: Place) => string;
const plainly: PlaceWords = ({ places }, place) => placeText(place, places);

export const withWords = ({ with: type, instrument, characteristic }: PlanStep): string =>
  characteristic.kind === 'seen' ? 'by eye' : (instrument ?? type ?? 'instrument');

/** The plan in runs that can be read at a glance, as far as the minutes given reach. */
export function planRuns(plan: ReadingPlan, minutes = Number.POSITIVE_INFINITY, place = plainly): PlanRun[] {
  const runs: PlanStep[][] = [];
  for (const step of plan.steps.filter(({ at }) => at <= minutes + 1e-9)) {
    const before = runs.at(-1)?.[0];
    const isSame =
      before?.characteristic.id === step.characteristic.id && withWords(before) === withWords(step);
    if (isSame) runs.at(-1)!.push(step);
    else runs.push([step]);
  }
  return runs.map((steps) => ({
    what: steps[0]!.characteristic.name,
    where: steps.map((one) => place(one.characteristic, one.place)).filter((at) => at !== ''),
    with: withWords(steps[0]!),
    minutes: steps.reduce((sum, one) => sum + one.minutes, 0),
    at: steps.at(-1)!.at,
    decides: decidedWords(steps, place),
    steps,
  }));
}

function decidedWords(steps: readonly PlanStep[], place: PlaceWords): string[] {
  const byName = new Map<string, { at: string[]; chances: number[] }>();
  for (const { judgement, chance: p } of steps.flatMap(({ decides }) => decides)) {
    const { characteristic } = judgement;
    const one = byName.get(characteristic.name) ?? { at: [], chances: [] };
    one.at.push(place(characteristic, judgement.place));
    one.chances.push(p);
    byName.set(characteristic.name, one);
  }
  return [...byName].map(([name, { at, chances }]) => {
    const where = at.filter((one) => one !== '');
    const mean = chances.reduce((sum, one) => sum + one, 0) / chances.length;
    const places = where.length > 4 ? `${where.length} places` : where.join('; ');
    const likely = mean > 0.995 ? '' : `, chance ${chance(mean)}`;
    return `${name}${places === '' ? '' : ` (${places})`}${likely}`;
  });
}

/** `12 min`, `1 h 5 min`. */
export function minutesWords(minutes: number): string {
  const whole = Math.round(minutes);
  const hours = Math.floor(whole / 60);
  return hours === 0 ? `${whole} min` : `${hours} h${whole % 60 === 0 ? '' : ` ${whole % 60} min`}`;
}

/** What the plan comes to, in a sentence. */
export function planSum(plan: ReadingPlan, minutes = Number.POSITIVE_INFINITY): string {
  const within = plan.steps.filter(({ at }) => at <= minutes + 1e-9);
  if (plan.steps.length === 0) return 'Nothing is left to read that could decide anything.';
  if (within.length === 0)
    return `Nothing can be decided in ${minutesWords(minutes)}: the first reading is done after ${minutesWords(plan.steps[0]!.at)}.`;
  const goals = within.flatMap(({ decides }) => decides);
  const expected = goals.reduce((sum, one) => sum + one.chance, 0);
  const readings = `${within.length} ${within.length === 1 ? 'reading' : 'readings'}`;
  const rest = plan.steps.length - within.length;
  return `${readings} in ${minutesWords(within.at(-1)!.at)} settle about ${expected.toFixed(0)} of ${goals.length} open verdicts${rest > 0 ? `; ${rest} more ${rest === 1 ? 'reading does' : 'readings do'} not fit, ${minutesWords(plan.steps.at(-1)!.at)} in all` : ''}.`;
}

/** What is open and left out of the plan, a sentence for each reason. */
export function leftWords(left: readonly LeftOpen[]): string[] {
  const says: Readonly<Record<LeftOpen['why'], string>> = {
    'does-not-matter': 'Skipped, since it does not matter (the same part is out elsewhere)',
    'nothing-owned-decides': 'Left out, since nothing owned is likely to decide it',
    'too-coarse':
      'Left out, since the instrument is too coarse for these limits: no reading of it would prove anything in',
    'behind-a-closed-cover': 'Left out, since it is behind a closed cover',
  };
  return (Object.keys(says) as LeftOpen['why'][]).flatMap((why) => {
    const some = left.filter((one) => one.why === why);
    if (some.length === 0) return [];
    if (why === 'too-coarse') return [`${says[why]}: ${coarseNames(some).join('; ')}.`];
    const names = some.map(({ judgement: { characteristic, place }, further }) => {
      const at = placeText(place, characteristic.places);
      const borrow = further?.deciding.find(({ owned }) => !owned);
      return `${characteristic.name}${at === '' ? '' : ` ${at}`}${borrow ? ` (a borrowed ${borrow.name}: ${chance(borrow.chance.decided)})` : ''}`;
    });
    return [`${says[why]}: ${names.join(', ')}.`];
  });
}

/** `Piston pin 1, 2, 3, 4 with Outside micrometers: one good to ±0.00006 in would do`, each characteristic once. */
function coarseNames(left: readonly LeftOpen[]): string[] {
  const byName = new Map<Characteristic, { at: string[]; coarse: TooCoarse }>();
  for (const { judgement, coarse } of left) {
    if (!coarse) continue;
    const { characteristic, place } = judgement;
    const one = byName.get(characteristic) ?? { at: [], coarse };
    one.at.push(placeText(place, characteristic.places));
    byName.set(characteristic, one);
  }
  return [...byName].map(([characteristic, { at, coarse }]) => {
    const where = at.filter((one) => one !== '').join(', ');
    return `${characteristic.name}${where === '' ? '' : ` ${where}`} with ${coarse.instrument.body.name}; one good to ±${uncertaintyWords(characteristic, coarse.needed)} at 95 % would do, borrowed or at a machine shop`;
  });
}

/** What the order rests on, said with every plan. */
export const PLAN_GROUNDS =
  'Order: the most worth decided a minute first, a verdict being worth 1 and the hours to reopen the cover it hides behind. Assumed, not timed: minutes to set up and read each type of instrument, 2 min to go to another part, and the chance that a first reading decides.';
