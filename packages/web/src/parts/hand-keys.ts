import { useLayoutEffect } from 'preact/hooks';

/** What the keys of keyboard, number pad and pedal do at one form. */
interface Hand {
  readonly digit?: (digit: string) => void;
  readonly more?: () => void;
  readonly less?: () => void;
  /** The pedal for on: the main move of the form. */
  readonly onward?: () => void;
  /** The pedal for taking back. */
  readonly undo?: () => void;
}

export const isField = (target: EventTarget | null): boolean =>
  target instanceof HTMLInputElement ||
  target instanceof HTMLSelectElement ||
  target instanceof HTMLTextAreaElement;

function moveOf(hand: Hand, { key, target }: KeyboardEvent): (() => void) | undefined {
  if (key === 'PageDown') return hand.onward;
  if (key === 'F8') return hand.undo;
  if (isField(target)) return undefined;
  if (key === '+') return hand.more;
  if (key === '-') return hand.less;
  const { digit } = hand;
  return /^\d$/.test(key) && digit ? () => digit(key) : undefined;
}

/** Digits, + and − wherever the focus is but in a field; PageDown and F8 for pedals. */
export function useHandKeys(hand: Hand): void {
  // Before the next key, not after the next frame.
  useLayoutEffect(() => {
    const heard = (event: KeyboardEvent): void => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const move = moveOf(hand, event);
      if (!move) return;
      move();
      event.preventDefault();
    };
    addEventListener('keydown', heard);
    return () => removeEventListener('keydown', heard);
  });
}
