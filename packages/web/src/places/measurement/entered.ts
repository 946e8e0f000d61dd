import { enter } from '../../state/measuring.ts';

/** Enters what is said, and goes on to the button that follows. */
export const entered = async (confirmed = false): Promise<void> => {
  if (await enter(confirmed)) document.getElementById('go-on')?.focus({ preventScroll: true });
};
