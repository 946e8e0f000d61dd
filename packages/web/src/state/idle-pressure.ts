import {
  filledCircuit,
  gaugePressure,
  pressureUnit,
  pressureVerdict,
  pressureWords,
  wantedPressure,
  wantedWords,
} from '@fettle/book';
import { effect } from '@preact/signals';
import { sheetConditions } from '../words/pressure.ts';
import { assessed, book } from './job.ts';
import { type IdlePressure, idlePressure } from './pressure.ts';

function idleNow(): IdlePressure | null {
  const conditions = sheetConditions(book.value);
  const speed = conditions?.speeds[0];
  if (!conditions || !speed) return null;
  const circuit = filledCircuit(book.value, assessed.value.reckoning);
  if (!circuit.ok) return null;
  const running = { speed: speed.si, temperature: conditions.hot.si };
  const unit = pressureUnit(book.value);
  const measured = gaugePressure(circuit.value, running, { as: 'measured' });
  const wanted = wantedPressure(book.value.sheet, running);
  const verdict = wanted && pressureVerdict(wanted, measured);
  return {
    words: pressureWords(measured, unit),
    speed: `${speed.text}, ${conditions.hot.text}`,
    asNew: pressureWords(gaugePressure(circuit.value, running, { as: 'new' }), unit),
    ...(wanted && { wanted: wantedWords(wanted) }),
    ...(verdict && { verdict }),
  };
}

/** Keeps the line on the bench true: worked out after each change, when the page has nothing better to do. */
export function followIdlePressure(): void {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    // Named here, so that the effect runs again when either changes.
    void assessed.value;
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      try {
        idlePressure.value = idleNow();
      } catch (error) {
        // A network without a balance gives no pressure, and the oil place says why.
        if (!(error instanceof RangeError)) throw error;
        idlePressure.value = null;
      }
    }, 30);
  });
}
