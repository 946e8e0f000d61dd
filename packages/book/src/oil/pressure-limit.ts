import { decisionOn, estimateOf, parseQuantity, type Uncertain } from '@fettle/core';
import { type Answer, RISK } from '../assess/verdict.ts';
import type { PressureLimit, SpecSheet } from '../sheet/sheet.ts';
import type { Running } from './pressure.ts';

/** What the sheet wants the gauge to show at one speed and temperature, in SI and as printed. */
export interface WantedPressure {
  readonly printed: PressureLimit;
  readonly lower?: number;
  readonly upper?: number;
}

/** @returns undefined where the sheet says nothing for that condition */
export function wantedPressure(sheet: SpecSheet | undefined, running: Running): WantedPressure | undefined {
  const is = (text: string, kind: 'speed' | 'temperature', si: number): boolean => {
    const read = parseQuantity(text, kind);
    return read.ok && Math.abs(read.value.value - si) <= 1e-6 * Math.abs(si);
  };
  const printed = sheet?.oil?.pressures.find(
    (one) => is(one.speed, 'speed', running.speed) && is(one.temperature, 'temperature', running.temperature),
  );
  if (!printed) return undefined;
  const pascals = (text: string | undefined): number | undefined => {
    const read = text === undefined ? undefined : parseQuantity(text, 'pressure');
    return read?.ok ? read.value.value : undefined;
  };
  const [lower, upper] = [pascals(printed.lower), pascals(printed.upper)];
  return { printed, ...(lower !== undefined && { lower }), ...(upper !== undefined && { upper }) };
}

/** Whether a predicted pressure is what the sheet wants, by the doubt that the readings leave in it. */
export function pressureVerdict(wanted: WantedPressure, predicted: Uncertain): Answer | undefined {
  if (wanted.lower === undefined && wanted.upper === undefined) return undefined;
  return decisionOn(estimateOf(predicted), wanted, RISK).verdict;
}
