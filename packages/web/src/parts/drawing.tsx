import type { Picture } from '@fettle/draw';
import { useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import { profile } from '../state/profile.ts';

interface Drawn {
  readonly title: string;
  readonly desc: string;
  /** Draws it as wide as there is room. The text comes from `draw` alone, which escapes every word it is given. */
  readonly draw: (picture: Picture) => string;
  /** At most so wide. */
  readonly widest?: number;
  readonly onClick?: (event: MouseEvent) => void;
  readonly onKeyDown?: (event: KeyboardEvent) => void;
}

/** A picture as wide as its place, drawn anew when the place changes. */
export function Drawing({ title, desc, draw, widest = 1100, onClick, onKeyDown }: Drawn) {
  const place = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = place.current;
    if (!element) return undefined;
    const measured = (): void => setWidth(Math.floor(Math.min(widest, element.clientWidth)));
    measured();
    const observer = new ResizeObserver(measured);
    observer.observe(element);
    return () => observer.disconnect();
  }, [widest]);
  const at = profile.value;
  const svg = useMemo(
    () => (width > 0 ? draw({ title, desc, width, profile: at }) : ''),
    [draw, title, desc, width, at],
  );
  // A tap draws it anew, and what had the focus is gone: the focus goes to what stands in its stead.
  const focused = document.activeElement;
  const held =
    focused instanceof SVGElement && place.current?.contains(focused) ? focused.dataset.leaf : undefined;
  useLayoutEffect(() => {
    if (held !== undefined)
      place.current
        ?.querySelector<SVGElement>(`[data-leaf="${CSS.escape(held)}"]`)
        ?.focus({ preventScroll: true });
  }, [svg]);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the parts of the picture that can be tapped are buttons themselves.
    <div
      ref={place}
      class="drawing"
      onClick={onClick}
      onKeyDown={onKeyDown}
      dangerouslySetInnerHTML={{ __html: svg }}
    />
  );
}
