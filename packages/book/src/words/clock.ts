const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** `3 days 4 h`, `20 h 40 min`, `25 min`: two units at the most, nothing finer than a minute. @param millis  0 or more [ms] */
export function spanWords(millis: number): string {
  const all = Math.max(0, Math.round(millis / MINUTE)) * MINUTE;
  const days = Math.floor(all / DAY);
  const hours = Math.floor((all % DAY) / HOUR);
  const minutes = Math.floor((all % HOUR) / MINUTE);
  const said = [
    days > 0 ? `${days} ${days === 1 ? 'day' : 'days'}` : '',
    hours > 0 ? `${hours} h` : '',
    minutes > 0 && days === 0 ? `${minutes} min` : '',
  ].filter((word) => word !== '');
  return said.length === 0 ? '0 min' : said.join(' ');
}

const FORMAT: Intl.DateTimeFormatOptions = {
  weekday: 'short',
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
  hourCycle: 'h23',
};

/**
 * `Tue 6 Jan 2026, 08:00`: a moment as a clock in the shop shows it.
 *
 * @param millis  Unix time [ms]
 * @param zone    IANA name; without one the world's time, which is then said
 */
export function momentWords(millis: number, zone = 'UTC'): string {
  const parts = new Intl.DateTimeFormat('en-GB', { ...FORMAT, timeZone: zone }).formatToParts(millis);
  const part = (type: Intl.DateTimeFormatPartTypes): string =>
    parts.find((one) => one.type === type)?.value ?? '';
  const day = `${part('weekday')} ${part('day')} ${part('month')} ${part('year')}`;
  return `${day}, ${part('hour')}:${part('minute')}${zone === 'UTC' ? ' UTC' : ''}`;
}

/** Whether a name is that of a time zone. */
export function isZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en-GB', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}
