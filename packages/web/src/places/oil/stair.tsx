import {
  type FilledCircuit,
  gaugePressure,
  pressureStair,
  pressureUnit,
  type Stair,
  stairWords,
} from '@fettle/book';
import type { Uncertain } from '@fettle/core';
import { type Picture, pressureStairSvg } from '@fettle/draw';
import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { book } from '../../state/job.ts';
import { circuitTried, partlyRepaired, shareRepaired } from './clearances.ts';
import { putBack, type Thought, thought, tried, turned } from './lifted.ts';
import type { Prediction } from './prediction.ts';
import { stairChart } from './stair-chart.ts';
import { useTreadDrag } from './tread-drag.ts';

/** The doubt of the treads is worked out once nobody has touched them for so long [ms]. */
const AT_REST = 350;
/** What an arrow key moves a tread by, and how near to an end is the end. */
const ARROW = 0.1;
const END = 0.005;

interface Played {
  readonly prediction: Prediction;
  /** What of the thought this circuit knows. */
  readonly of: Thought;
}

interface Banded {
  readonly of: Stair;
  readonly stair: Stair;
  /** The gauge with one repair besides those made, with its doubt. */
  readonly alone: ReadonlyMap<string, Uncertain>;
}

const treadOf = (event: Event): string | undefined =>
  event.target instanceof Element
    ? event.target.closest<SVGElement>('[data-tread]')?.dataset.tread
    : undefined;

/** Where the circuit finds no balance, the page says so elsewhere. */
function balanced<T>(worked: () => T): T | undefined {
  try {
    return worked();
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** How much of a repair is made in thought, 0 to 1. */
function shareOf(circuit: FilledCircuit, repair: string): number {
  const { repairs, values } = thought.value;
  return repairs.includes(repair) ? 1 : (shareRepaired(circuit, repair, values) ?? 0);
}

/** Makes so much of a repair; all or nothing of it is a lift or a putting back. */
function made(circuit: FilledCircuit, repair: string, share: number): void {
  const now = thought.value.repairs.includes(repair);
  const names = circuit.parameters.filter((one) => one.repair === repair).map(({ name }) => name);
  if (share >= 1 - END) {
    if (!now) turned(circuit, repair);
  } else if (share <= END) {
    if (now) turned(circuit, repair);
    else putBack(names);
  } else tried(repair, partlyRepaired(circuit, repair, share));
}

/** What each repair carries of the loss. A tap makes one in thought, a drag part of it. */
export function PressureStairs({ prediction, of }: Played) {
  const now = book.value;
  const { circuit } = prediction;
  const at = prediction.idle;
  const { repairs, values } = of;
  const whole = useMemo(() => pressureStair(circuit, at, { doubtSolves: 0 }), [circuit, at]);
  const as = useMemo(() => circuitTried(circuit, values), [circuit, values]);
  const quick = useMemo(
    () =>
      repairs.length === 0 && as === circuit
        ? whole
        : (balanced(() => pressureStair(as, at, { lifted: repairs, doubtSolves: 0 })) ?? whole),
    [as, circuit, at, whole, repairs],
  );
  const [banded, setBanded] = useState<Banded | undefined>(undefined);
  useEffect(() => {
    const waiting = setTimeout(
      () =>
        setBanded(
          balanced(() => ({
            of: quick,
            stair: pressureStair(as, at, { lifted: repairs }),
            alone: new Map(
              quick.treads.map(({ repair }) => [
                repair,
                gaugePressure(as, at, { as: 'repaired', repairs: [...repairs, repair] }),
              ]),
            ),
          })),
        ),
      AT_REST,
    );
    return () => clearTimeout(waiting);
  }, [quick]);
  const rested = banded?.of === quick ? banded : undefined;
  const stair = rested?.stair ?? quick;
  const draw = useCallback(
    (picture: Picture) =>
      pressureStairSvg(stairChart(now, at, whole, stair, { values, circuit, alone: rested?.alone }), picture),
    [now, at, whole, stair, rested],
  );

  // A tap draws the stair anew; the focus goes to the tread that stands in the old one's stead.
  const place = useRef<HTMLDivElement>(null);
  const focused = document.activeElement;
  const held =
    focused instanceof SVGElement && place.current?.contains(focused) ? focused.dataset.tread : undefined;
  useLayoutEffect(() => {
    if (held !== undefined)
      place.current
        ?.querySelector<SVGElement>(`[data-tread="${CSS.escape(held)}"]`)
        ?.focus({ preventScroll: true });
  }, [draw]);

  const drag = useTreadDrag(place, {
    treadOf,
    shareOf: (repair) => shareOf(circuit, repair),
    made: (repair, share) => made(circuit, repair, share),
    carried: (repair) => {
      const tread = whole.treads.find((one) => one.repair === repair);
      return tread && whole.asNew !== whole.asFound
        ? tread.share.value / (whole.asNew - whole.asFound)
        : undefined;
    },
  });
  const tapped = (event: Event): void => {
    const tread = treadOf(event);
    if (tread !== undefined && !drag.justDragged()) turned(circuit, tread);
  };
  const keyed = (event: KeyboardEvent): void => {
    const tread = treadOf(event);
    if (tread === undefined) return;
    const way = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
    if (way === undefined && event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    if (way === undefined) turned(circuit, tread);
    else made(circuit, tread, Math.round((shareOf(circuit, tread) + way * ARROW) / ARROW) * ARROW);
  };
  return (
    <section class="stair">
      <h2>
        What is lost, and by what, at {at.speedWords} and {at.temperatureWords}
      </h2>
      <div ref={place} {...drag.handlers}>
        <Drawing
          title="Pressure stair"
          desc={`From as new down to now. ${stair.treads.length} repairs, each a switch that makes it in thought; the arrow keys make part of it.`}
          draw={draw}
          widest={1240}
          onClick={tapped}
          onKeyDown={keyed}
        />
      </div>
      <details>
        <summary>How the loss is shared</summary>
        <p>
          Each tread is a fair share (Shapley 1953): what its repair adds to the pressure, averaged over every
          order in which the repairs could be made, so the treads add up exactly.
          {` ${stairWords.sharesWords(stair, pressureUnit(now)).join(' ')}`} The hollow dot is what that
          repair brings next; it falls short of the share where oil that one leak no longer takes feeds the
          others. As new is by the sheet’s own figures, which carry no band.
        </p>
        <p>
          A repair brings its parts to what the sheet says for repaired parts; dragged to the right, a tread
          is repaired so much of the way. Discharge coefficients, eccentricities, film temperatures and leak
          paths of the circuit are assumed and carry no band.
        </p>
      </details>
    </section>
  );
}
