import { normalCdf } from '@fettle/core';
import { dayWords } from '../timeline/time-there.ts';
import type { PlannedTask, TimeLine } from '../timeline/timeline.ts';
import { daysWords, chance as share } from './money.ts';

/** `2 weeks`, `10 to 28 days, most likely 14`. */
export function takesWords({ times, unsaid, state, overdue }: PlannedTask): string {
  if (state === 'over') return 'over';
  if (overdue) return 'overdue';
  if (unsaid) return 'no time said';
  const { soonest, likely, latest, spread } = times;
  if (!spread) return likely === 0 ? 'no time' : daysWords(likely);
  return `${soonest} to ${latest} days, most likely ${likely}`;
}

/** When it is there by the most likely times. */
export function readyWords({ schedule }: TimeLine, id: string): string {
  const { finish, slack } = schedule.slots.get(id)!;
  return `${finish === 0 ? 'at once' : `day ${rounded(finish)}`}${slack > 0 ? `, ${rounded(slack)} to spare` : ''}`;
}

const rounded = (days: number): number => Math.round(days * 10) / 10;

/** The whole in a sentence or two. */
export const dateWords = (line: TimeLine): string[] => [
  ...meetingWords(line),
  ...(line.example
    ? [`This is a worked example: its time stands at ${dayWords(line.from)}, when its last line was written.`]
    : []),
];

function meetingWords({ schedule, days, date, chance, tasks }: TimeLine): string[] {
  if (tasks.length === 0) return ['Nothing lies ahead: nothing is to be bought and no task was entered.'];
  const spread = tasks.some(({ times }) => times.spread);
  const likely = `With every time as it is most likely, all is done after ${daysWords(schedule.days)}.`;
  const drawn = spread
    ? ` One in two after ${Math.round(chance.middle)} days, nine in ten after ${Math.round(chance.late)}.`
    : '';
  if (days === undefined) return [`${likely}${drawn} The job names no date.`];
  if (days < 0) return [`The date${dateOf(date)} is past, by ${pastWords(-days)}.`, `${likely}${drawn}`];
  const met = spread
    ? `The chance of meeting the ${daysWords(days)} there are: ${share(chance.chance ?? 0)}.`
    : `${schedule.days <= days ? `That is ${daysWords(days - schedule.days)} before` : `That is ${daysWords(schedule.days - days)} after`} the ${daysWords(days)} there are.`;
  return [met.replace('at once before', 'on'), `${likely}${drawn}`];
}

const dateOf = (date: number | undefined): string => (date === undefined ? '' : `, ${dayWords(date)},`);

/** `76 weeks`, `5 days`: nobody counts days past two weeks. */
export const pastWords = (days: number): string =>
  days < 14 ? daysWords(days) : `${Math.round(days / 7)} weeks`;

/** What sets the date, and how sure that is. */
export function criticalWords({ schedule, tasks, chance }: TimeLine): string {
  const named = (id: string): string => tasks.find((task) => task.id === id)?.name ?? id;
  const lasts = (id: string): boolean => tasks.some((task) => task.id === id && task.times.latest > 0);
  const way = schedule.critical.filter(lasts).filter((id) => (schedule.slots.get(id)?.finish ?? 0) > 0);
  if (way.length === 0) return '';
  const rivals = [...chance.critical]
    .filter(([id, often]) => !way.includes(id) && often >= 0.1 && lasts(id))
    .sort((a, b) => b[1] - a[1])
    .map(([id, often]) => `${named(id)} (${share(often)})`);
  return `The date hangs on ${way.map(named).join(', then ')}.${rivals.length > 0 ? ` Sometimes on ${rivals.join(', ')} instead.` : ''}`;
}

/** On what the chance rests, so that nobody believes it further. */
export function chanceRests({ tasks, chance, pert, days, date, from, example }: TimeLine): string[] {
  const under = tasks.filter(({ gone }) => gone !== undefined);
  const overdue = tasks.filter((task) => task.overdue === true);
  const certain = tasks.filter(({ times, state, unsaid }) => !times.spread && state !== 'over' && !unsaid);
  const unsaid = tasks.filter((task) => task.unsaid);
  const names = (list: readonly PlannedTask[]): string =>
    `${list
      .slice(0, 5)
      .map(({ name }) => name)
      .join(', ')}${list.length > 5 ? ` and ${list.length - 5} more` : ''}`;
  const spread = tasks.some(({ times }) => times.spread);
  return [
    `Counted in days from ${example ? `${dayWords(from)}, where this worked example stands` : 'today'}${date === undefined ? '' : `, until ${dayWords(date)}`}; everything begins as soon as what it needs is there.`,
    ...(under.length > 0
      ? [
          `Counted from when it was ordered or begun: ${under.map(({ name, gone }) => `${name} (${gone === 0 ? 'today' : `${daysWords(gone ?? 0)} ago`})`).join(', ')}.`,
        ]
      : []),
    ...(overdue.length > 0
      ? [`Overdue, counted as if it came today: ${names(overdue)}. Ask after it, or enter what is known now.`]
      : []),
    ...(spread
      ? [
          `Each time is drawn from a triangle over its soonest and latest with the top at the most likely, ${chance.trials} times, each by itself: a shop that is late with one thing is late with all, which this does not know.`,
          `By the older rule (PERT: the longest way alone, (soonest + 4 × likely + latest) / 6): ${Math.round(pert.mean * 10) / 10} ±${Math.round(pert.deviation * 10) / 10} days${days !== undefined && pert.deviation > 0 ? `, ${share(normalCdf((days - pert.mean) / pert.deviation))}` : ''}. It leaves out that another way may turn out the longest, and leans less to the late side than the triangles.`,
        ]
      : ['Nobody said how far a time may stray, so there is no chance to work out.']),
    ...(certain.length > 0 ? [`Taken at its word, no spread said: ${names(certain)}.`] : []),
    ...(unsaid.length > 0 ? [`No time said, taken for none: ${names(unsaid)}.`] : []),
  ];
}

/** How often a task sets the date. */
export const criticalShare = ({ chance, schedule }: TimeLine, id: string): string => {
  const often = chance.critical.get(id) ?? 0;
  if (chance.trials === 1) return schedule.critical.includes(id) ? 'sets the date' : '';
  if (often > 0.999) return 'always sets the date';
  return often < 0.005 ? '' : `sets the date in ${share(often)}`;
};

/** The tasks as bars over days, those that take no time left out. */
export function timeLineChart(line: TimeLine) {
  const { schedule, days, tasks, chance } = line;
  const unit =
    Math.max(schedule.days, days ?? 0) > 28 ? { days: 7, name: 'weeks' } : { days: 1, name: 'days' };
  return {
    unit,
    rows: tasks
      .filter(({ times }) => times.latest > 0)
      .map((task) => {
        const slot = schedule.slots.get(task.id)!;
        return {
          name: task.name,
          start: slot.start,
          finish: slot.finish,
          latest: slot.start + task.times.latest,
          slack: slot.slack,
          critical: schedule.critical.includes(task.id),
          text: criticalShare(line, task.id),
        };
      }),
    ...(days !== undefined && days >= 0 && { due: { days, text: `the date, ${daysWords(days)}` } }),
    ...(chance.trials > 1 && {
      end: { early: chance.early, middle: chance.middle, late: chance.late, text: 'all done' },
    }),
  };
}
