import { parseQuantity } from '@fettle/core';
import type { Book, Written } from '../fold/book.ts';
import type { Running } from './pressure.ts';

/** How near speed and temperature must be for a gauge reading to be held beside a prediction. */
const SPEED_SHARE = 0.03;
const TEMPERATURE_SPAN = 3;

/**
 * What the real gauge showed at about these conditions, oldest first. A reading without a temperature fits none; one
 * that a failed check of the gauge put in doubt is left out, and so is one with another oil in.
 *
 * @param grade  of the sheet; the one filled when absent
 */
export function gaugeReadingsAt(
  book: Book,
  running: Running,
  grade = book.sheet?.oil?.fill,
): Written<'gauge-reading'>[] {
  return book.gaugeReadings.filter(({ body, standing }) => {
    if (standing !== 'counts' || (body.oil ?? book.sheet?.oil?.fill) !== grade) return false;
    const speed = parseQuantity(body.speed, 'speed');
    const temperature =
      body.temperature === undefined ? undefined : parseQuantity(body.temperature, 'temperature');
    return (
      speed.ok &&
      temperature?.ok === true &&
      Math.abs(speed.value.value - running.speed) <= SPEED_SHARE * running.speed &&
      Math.abs(temperature.value.value - running.temperature) <= TEMPERATURE_SPAN
    );
  });
}
