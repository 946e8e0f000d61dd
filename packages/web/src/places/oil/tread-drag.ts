import type { RefObject } from 'preact';
import { useRef } from 'preact/hooks';

/** A hand that moves less than this tapped [px]. */
const TAP = 8;
/** A tread that carries little is dragged as though it were so wide [px]. */
const LEAST = 140;

interface Treads {
  readonly treadOf: (event: Event) => string | undefined;
  /** How much of the repair is made, 0 to 1. */
  readonly shareOf: (repair: string) => number;
  readonly made: (repair: string, share: number) => void;
  /** What it carries of the whole loss. */
  readonly carried: (repair: string) => number | undefined;
}

interface Held {
  readonly repair: string;
  readonly pointer: number;
  readonly x: number;
  readonly from: number;
  readonly wide: number;
  moving: boolean;
}

/** From new to as found along the stair [px], by the bars drawn at its ends. */
function stretch(place: HTMLElement): number {
  const to = (mark: string): number =>
    Number(place.querySelector<SVGElement>(`[data-mark="${mark}"]`)?.dataset.to);
  const svg = place.querySelector('svg');
  const scale = svg ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1;
  const whole = (to('as-new') - to('now')) * (Number.isFinite(scale) ? scale : 1);
  return Number.isFinite(whole) ? Math.abs(whole) : 0;
}

/** Drags a tread of the stair: as far to the right as it is wide repairs it whole. */
export function useTreadDrag(
  place: RefObject<HTMLElement | null>,
  { treadOf, shareOf, made, carried }: Treads,
): {
  readonly handlers: Readonly<Record<string, (event: PointerEvent) => void>>;
  /** Whether the click that comes now ends a drag. */
  readonly justDragged: () => boolean;
} {
  const held = useRef<Held | undefined>(undefined);
  const dragged = useRef(false);
  const widest = useRef(0);
  return {
    justDragged: () => dragged.current,
    handlers: {
      onPointerDown: (event) => {
        dragged.current = false;
        const repair = treadOf(event);
        if (repair === undefined || !event.isPrimary || event.button !== 0 || !place.current) return;
        // As found the stair is widest; with treads lifted it is drawn to the same scale.
        widest.current = Math.max(widest.current, stretch(place.current));
        held.current = {
          repair,
          pointer: event.pointerId,
          x: event.clientX,
          from: shareOf(repair),
          wide: Math.max(LEAST, widest.current * Math.abs(carried(repair) ?? 0)),
          moving: false,
        };
      },
      onPointerMove: (event) => {
        const now = held.current;
        if (now?.pointer !== event.pointerId) return;
        const by = event.clientX - now.x;
        if (!now.moving && Math.abs(by) < TAP) return;
        if (!now.moving) place.current?.setPointerCapture(now.pointer);
        now.moving = true;
        dragged.current = true;
        made(now.repair, Math.min(1, Math.max(0, now.from + by / now.wide)));
      },
      onPointerUp: () => {
        held.current = undefined;
      },
      onPointerCancel: () => {
        held.current = undefined;
      },
    },
  };
}
