import { computed } from '@preact/signals';
import { clock } from './clock.ts';
import { setSetting, settings } from './desk.ts';
import { book, job } from './job.ts';

const HOUR = 3_600_000;
/** After so long nobody has in mind how the engine was left [ms]. */
const PAUSE = 4 * HOUR;
/** A new day counts from so long after the last entry: who works past midnight has not paused [ms]. */
const NEW_DAY = HOUR / 2;

const dayOf = (millis: number): string => new Date(millis).toDateString();

/** Whether work begins anew: on a later day of the device's calendar, or after a pause. Both Unix time [ms]. */
export const isAfterPause = (last: number, now: number): boolean =>
  now - last >= PAUSE || (now - last >= NEW_DAY && dayOf(now) !== dayOf(last));

const seenKey = (): string => `left seen ${job.value ?? ''}`;

/** Whether somebody comes back to the job who has not been shown yet how it was left. */
export const comesBack = computed<boolean>(() => {
  const made = Math.max(...book.value.entries.map(({ at }) => Date.parse(at)).filter(Number.isFinite));
  const seen = settings.value[seenKey()];
  const last = Math.max(made, typeof seen === 'number' ? seen : 0);
  return Number.isFinite(last) && last > 0 && isAfterPause(last, clock.value);
});

/** It was read: until the next pause the bench begins with what is next. */
export const leftSeen = (): Promise<void> => setSetting(seenKey(), Date.now());
