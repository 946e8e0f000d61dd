import { signal } from '@preact/signals';

/** How often the page looks at the device's clock [ms]: often enough that a minute is shown within itself. */
const TICK = 10_000;

/** The device's clock as last looked at, Unix time [ms]. It runs while the page is seen, and is right when it is seen again. */
export const clock = signal(Date.now());

/** The zone in which the device shows its times. */
export const deviceZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

export function startClock(): void {
  const look = (): void => {
    if (document.visibilityState === 'visible') clock.value = Date.now();
  };
  setInterval(look, TICK);
  document.addEventListener('visibilitychange', look);
}
