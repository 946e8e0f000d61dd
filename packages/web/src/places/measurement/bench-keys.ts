import { useEffect } from 'preact/hooks';
import { isField } from '../../parts/hand-keys.ts';
import { go } from '../../route.ts';
import { canEnter, enter, pressed, saying, takenBack, undo } from '../../state/measuring.ts';
import { neighbours, type Step } from '../../state/steps.ts';
import { FIELD_ID, goNext, hashAt } from './going.ts';

const DIGIT = /^[0-9.+-]$/;

const isControl = (target: EventTarget | null): boolean =>
  isField(target) ||
  (target instanceof Element && target.closest('button, a, summary, [role=button]') !== null);

/** On: what is typed is entered, otherwise the next place comes. */
async function onward(step: Step): Promise<void> {
  if (!canEnter.value || !saying.value) goNext(step.key);
  else if (await enter()) document.getElementById('go-on')?.focus({ preventScroll: true });
}

/** Where the keys of keyboard, wedge and pedal lead, whatever has the focus. Tells whether it took the key. */
function taken(step: Step, event: KeyboardEvent): boolean {
  const { key, target } = event;
  // Pedals send whole keys: on, again, take back.
  if (key === 'PageDown') void onward(step);
  else if (key === 'PageUp') saying.value = true;
  else if (key === 'F8') void undo();
  else if (isField(target)) return false;
  else if (DIGIT.test(key) && step.characteristic.kind !== 'seen') {
    // A wedge begins to type wherever the focus is: it goes to the field, and so does the Enter at its end.
    void pressed(key);
    document.getElementById(FIELD_ID)?.focus({ preventScroll: true });
  } else if (key === 'Backspace') void takenBack();
  else if (key === 'ArrowRight' || key === 'ArrowLeft') {
    const { before, after } = neighbours(step.key);
    const to = key === 'ArrowRight' ? after : before;
    if (to) go(hashAt(to));
  } else if ((key === 'Enter' || key === ' ') && !isControl(target)) void onward(step);
  else return false;
  return true;
}

/** Keyboard, wedge and foot switch at one place: digits, Enter or Space, arrows; PageDown, PageUp and F8 for pedals. */
export function useBenchKeys(step: Step | undefined): void {
  useEffect(() => {
    if (!step) return undefined;
    const heard = (event: KeyboardEvent): void => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (taken(step, event)) event.preventDefault();
    };
    addEventListener('keydown', heard);
    return () => removeEventListener('keydown', heard);
  }, [step]);
}
