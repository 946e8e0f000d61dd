import { pressureStair, pressureVerdict, type Stair, wantedPressure } from '@fettle/book';
import { inUnit } from '@fettle/core';
import { type Picture, pressureStairSvg } from '@fettle/draw';
import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { SmallVerdict } from '../../parts/verdict.tsx';
import { book } from '../../state/job.ts';
import { pressureUnit, pressureWords, wantedWords } from '../../words/pressure.ts';
import { allPutBack, turned } from './lifted.ts';
import type { Predicted, Prediction } from './prediction.ts';
import { stairChart } from './stair-chart.ts';

/** The doubt of the treads is worked out once nobody has tapped for so long [ms]. */
const AT_REST = 350;

interface Played {
  readonly prediction: Prediction;
  /** Those of the circuit that are lifted. */
  readonly repairs: readonly string[];
  /** Idle, with them made. */
  readonly idle: Predicted;
}

const treadOf = (event: Event): string | undefined =>
  event.target instanceof Element
    ? event.target.closest<SVGElement>('[data-tread]')?.dataset.tread
    : undefined;

/** What each repair carries of the loss. A tap makes one in thought, another takes it back. */
export function PressureStairs({ prediction, repairs, idle }: Played) {
  const now = book.value;
  const { circuit } = prediction;
  const at = prediction.idle;
  const whole = useMemo(() => pressureStair(circuit, at, { doubtSolves: 0 }), [circuit, at]);
  const quick = useMemo(
    () => (repairs.length === 0 ? whole : pressureStair(circuit, at, { lifted: repairs, doubtSolves: 0 })),
    [circuit, at, whole, repairs],
  );
  const [banded, setBanded] = useState<{ of: Stair; stair: Stair } | undefined>(undefined);
  useEffect(() => {
    const waiting = setTimeout(
      () => setBanded({ of: quick, stair: pressureStair(circuit, at, { lifted: repairs }) }),
      AT_REST,
    );
    return () => clearTimeout(waiting);
  }, [quick]);
  const stair = banded?.of === quick ? banded.stair : quick;
  const draw = useCallback(
    (picture: Picture) => pressureStairSvg(stairChart(now, at, whole, stair), picture),
    [now, at, whole, stair],
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

  const tapped = (event: Event): void => {
    const tread = treadOf(event);
    if (tread !== undefined) turned(tread);
  };
  return (
    <section class="stair">
      <h2>
        What is lost, and by what, at {at.speedWords} and {at.temperatureWords}
      </h2>
      <Thought prediction={prediction} repairs={repairs} idle={idle} />
      <div ref={place}>
        <Drawing
          title="Pressure stair"
          desc={`From as new down to now. ${stair.treads.length} repairs, each a switch that makes it in thought.`}
          draw={draw}
          widest={1240}
          onClick={tapped}
          onKeyDown={(event) => {
            if ((event.key !== 'Enter' && event.key !== ' ') || treadOf(event) === undefined) return;
            event.preventDefault();
            tapped(event);
          }}
        />
      </div>
      <details>
        <summary>How the loss is shared</summary>
        <p>
          Each tread is a fair share (Shapley 1953): what its repair adds to the pressure, averaged over every
          order in which the repairs could be made, so the treads add up exactly
          {stair.exact ? '' : ` (here over ${stair.orders ?? 0} orders drawn)`}. The hollow dot is what that
          repair brings next; it falls short of the share where oil that one leak no longer takes feeds the
          others. ± is what the readings leave open, at about 95 %; treads share readings, so their bands go
          together.
        </p>
        <p>
          A repair brings its parts to what the sheet says for repaired parts. Discharge coefficients,
          eccentricities, film temperatures and leak paths of the circuit are assumed and carry no band.
        </p>
      </details>
    </section>
  );
}

/** The pressure with what is lifted, in words. */
function Thought({ prediction, repairs, idle }: Played) {
  const now = book.value;
  const unit = pressureUnit(now);
  const wanted = wantedPressure(now.sheet, idle);
  const verdict = wanted && pressureVerdict(wanted, idle.measured);
  const more = inUnit(idle.measured.value - prediction.idle.measured.value, unit);
  const decimals = unit === 'bar' ? 2 : 1;
  return (
    <div class={repairs.length > 0 ? 'thought held' : 'thought'}>
      <div role="status">
        {repairs.length === 0 ? (
          <p>Tap a tread to repair it in thought; tap it again to take that back.</p>
        ) : (
          <>
            <p class="figure">
              {pressureWords(idle.measured, unit)} {verdict ? <SmallVerdict status={verdict} /> : null}
              <br />
              <small>
                {more < 0 ? '−' : '+'}
                {Math.abs(more).toFixed(decimals)} by what is lifted
                {wanted ? `; wanted ${wantedWords(wanted)}` : ''}
              </small>
            </p>
            <p class="soft names">In thought only: {repairs.join('; ')}.</p>
          </>
        )}
      </div>
      {repairs.length > 0 ? (
        <button type="button" class="quiet" onClick={allPutBack}>
          Put all back
        </button>
      ) : null}
    </div>
  );
}
