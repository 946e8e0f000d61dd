import type { Profile } from '@fettle/draw';
import { signal } from '@preact/signals';

/** The same boundaries as the sizes in the style sheet. */
const TABLET = '(min-width: 700px)';
const DESK = '(min-width: 1200px) and (hover: hover)';

/** Where the page is looked at: it decides the sizes of drawings, as the style sheet decides those of keys. */
export const profile = signal<Exclude<Profile, 'paper'>>('phone');

export function followProfile(): void {
  const [tablet, desk] = [matchMedia(TABLET), matchMedia(DESK)];
  const seen = (): void => {
    profile.value = desk.matches ? 'desk' : tablet.matches ? 'tablet' : 'phone';
  };
  seen();
  tablet.addEventListener('change', seen);
  desk.addEventListener('change', seen);
}
