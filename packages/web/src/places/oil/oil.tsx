import { type Book, gaugeReadingsAt, pressureVerdict, wantedPressure } from '@fettle/book';
import { expanded, inUnit, linear, parseQuantity, printQuantity, type Uncertain } from '@fettle/core';
import {
  type FlowChart,
  flowBarsSvg,
  type Picture,
  type PressureChart,
  pressureCurveSvg,
  type RepairChart,
  repairBarsSvg,
} from '@fettle/draw';
import { signal } from '@preact/signals';
import { useCallback, useMemo } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { StrikeEntry } from '../../parts/strike-entry.tsx';
import { SmallVerdict } from '../../parts/verdict.tsx';
import { assessed, book } from '../../state/job.ts';
import { entryWords } from '../../words/entry.ts';
import { pressureUnit, pressureWords, unmeasured, wantedWords } from '../../words/pressure.ts';
import { operandWords, shown } from '../../words/quantity.ts';
import { GaugeForm } from './gauge-form.tsx';
import { type Predicted, type Prediction, predicted } from './prediction.ts';

const grade = signal<string | undefined>(undefined);

/** The pressure that these clearances would give, where the oil goes, and what each repair alone would bring. */
export function Oil() {
  const now = book.value;
  const { reckoning } = assessed.value;
  const chosen = grade.value;
  const outcome = useMemo(() => {
    try {
      return predicted(now, reckoning, chosen);
    } catch (error) {
      if (error instanceof RangeError) return error.message;
      throw error;
    }
  }, [now, reckoning, chosen]);
  return (
    <main class="oil">
      <h1>Oil pressure</h1>
      {typeof outcome === 'string' ? <p class="issue">{outcome}</p> : null}
      {outcome === undefined ? <p>The spec sheet names no speeds, so there is nothing to show.</p> : null}
      {typeof outcome === 'object' && !outcome.ok
        ? outcome.issues.map(({ code, message }) => (
            <p key={code} class="issue">
              {message}
            </p>
          ))
        : null}
      {typeof outcome === 'object' && outcome.ok ? <Shown prediction={outcome.value} /> : null}
      <GaugeForm />
    </main>
  );
}

function Shown({ prediction }: { readonly prediction: Prediction }) {
  const now = book.value;
  const grades = Object.entries(now.sheet?.oil?.grades ?? {});
  const missing = unmeasured(prediction.circuit);
  return (
    <>
      <Headline idle={prediction.idle} />
      {grades.length > 1 ? (
        <fieldset class="choice">
          <legend>Oil filled</legend>
          {grades.map(([id, { name }]) => (
            <label key={id}>
              <input
                type="radio"
                name="grade"
                checked={(grade.value ?? now.sheet?.oil?.fill) === id}
                onChange={() => {
                  grade.value = id;
                }}
              />{' '}
              <span>{name}</span>
            </label>
          ))}
        </fieldset>
      ) : null}
      <Curve prediction={prediction} />
      <p class="soft">
        The bands are what the readings leave open, at about 95 %. The circuit’s own constants (discharge
        coefficients, eccentricities, film temperatures, leak paths) are assumed and carry no band: a real
        gauge outranks all of this.
        {missing.length > 0 ? ` Not measured, taken as new: ${missing.join(', ')}.` : ''}
      </p>
      <Repairs prediction={prediction} />
      <Flows prediction={prediction} />
      <Rests prediction={prediction} />
    </>
  );
}

function Headline({ idle }: { readonly idle: Predicted }) {
  const now = book.value;
  const unit = pressureUnit(now);
  const wanted = wantedPressure(now.sheet, idle);
  const verdict = wanted && pressureVerdict(wanted, idle.measured);
  return (
    <p class="figure" role="status">
      {pressureWords(idle.measured, unit)} at {idle.speedWords}, {idle.temperatureWords}
      {verdict ? (
        <>
          {' '}
          <SmallVerdict status={verdict} />
        </>
      ) : null}
      <br />
      <small>
        {wanted ? `Wanted ${wantedWords(wanted)}. ` : ''}As new it would be {pressureWords(idle.asNew, unit)}.
      </small>
    </p>
  );
}

const rpm = (si: number): number => inUnit(si, 'rpm');

function chartOf(now: Book, { rows }: Prediction): PressureChart {
  const unit = pressureUnit(now);
  const p = (si: number): number => inUnit(si, unit);
  const line = (
    name: string,
    style: 'solid' | 'dashed' | 'dotted',
    list: readonly Predicted[],
    of: (row: Predicted) => Uncertain,
  ) => ({
    name,
    style,
    points: list.map((row) => {
      const q = of(row);
      const U = expanded(q).U;
      return {
        speed: rpm(row.speed),
        value: p(q.value),
        ...(U > 0 && { low: p(q.value - U), high: p(q.value + U) }),
      };
    }),
  });
  const hot = rows.filter(({ cold }) => !cold);
  const cold = rows.filter((row) => row.cold);
  return {
    speedAxis: 'crank, rpm',
    pressureAxis: `gauge, ${unit}`,
    curves: [
      line(`hot, ${hot[0]?.temperatureWords ?? ''}`, 'solid', hot, ({ measured }) => measured),
      ...(cold.length > 0
        ? [line(`cold, ${cold[0]!.temperatureWords}`, 'dashed', cold, ({ measured }) => measured)]
        : []),
      line('as new, hot', 'dotted', hot, ({ asNew }) => asNew),
    ],
    limits: rows.flatMap((row) => {
      const wanted = wantedPressure(now.sheet, row);
      if (!wanted) return [];
      const { lower, upper } = wanted;
      return [
        {
          speed: rpm(row.speed),
          ...(lower !== undefined && { lower: p(lower) }),
          ...(upper !== undefined && { upper: p(upper) }),
          text: wantedWords(wanted),
        },
      ];
    }),
    gauge: rows.flatMap((row) =>
      gaugeReadingsAt(now, row).flatMap(({ body }) => {
        const read = parseQuantity(body.pressure, 'pressure');
        const U = now.instruments.get(body.instrument)?.body.uncertainty.expanded;
        const half = U === undefined ? undefined : parseQuantity(U, 'pressure');
        return read.ok
          ? [
              {
                speed: rpm(row.speed),
                value: p(read.value.value),
                ...(half?.ok && { half: p(half.value.value) }),
                cold: row.cold,
              },
            ]
          : [];
      }),
    ),
    gaugeName: 'a gauge showed',
  };
}

function Curve({ prediction }: { readonly prediction: Prediction }) {
  const now = book.value;
  const unit = pressureUnit(now);
  const draw = useCallback(
    (picture: Picture) => pressureCurveSvg(chartOf(now, prediction), picture),
    [now, prediction],
  );
  const desc = prediction.rows
    .map((row) => `${row.temperatureWords}, ${row.speedWords}: ${pressureWords(row.measured, unit)}`)
    .join('; ');
  return <Drawing title="Gauge pressure against speed" desc={desc} draw={draw} widest={1240} />;
}

function Repairs({ prediction }: { readonly prediction: Prediction }) {
  const now = book.value;
  const unit = pressureUnit(now);
  const { idle, repairs } = prediction;
  const draw = useCallback(
    (picture: Picture): string => {
      const figure = (name: string, q: Uncertain) => {
        const U = inUnit(expanded(q).U, unit);
        const value = inUnit(q.value, unit);
        return {
          name,
          value,
          text: pressureWords(q, unit),
          ...(U > 0 && { low: value - U, high: value + U }),
        };
      };
      const lower = wantedPressure(now.sheet, idle)?.lower;
      const chart: RepairChart = {
        asMeasured: figure('as measured', idle.measured),
        repairs: repairs.map((one) => figure(one.repair, one.idle)),
        asNew: figure('everything as new', idle.asNew),
        ...(lower !== undefined && {
          required: { name: 'wanted', value: inUnit(lower, unit), text: printQuantity(lower, unit, 0) },
        }),
      };
      return repairBarsSvg(chart, picture);
    },
    [now, unit, idle, repairs],
  );
  return (
    <section>
      <h2>
        Each repair alone, at {idle.speedWords} and {idle.temperatureWords}
      </h2>
      <Drawing
        title="What each single repair would give"
        desc={repairs.map((one) => `${one.repair}: ${pressureWords(one.idle, unit)}`).join('; ')}
        draw={draw}
        widest={1240}
      />
    </section>
  );
}

function Flows({ prediction }: { readonly prediction: Prediction }) {
  const { flows, swept, idle } = prediction;
  const draw = useCallback(
    (picture: Picture): string => {
      const whole = flows.reduce((sum, { flow }) => sum + Math.max(0, flow), 0);
      const chart: FlowChart = {
        parts: flows.map(({ name, flow }) => ({
          name,
          value: inUnit(flow, 'L/min'),
          text: printQuantity(flow, 'L/min', 2),
          ...(whole > 0 && { share: `${((100 * flow) / whole).toFixed(0)} %` }),
        })),
        ...(swept !== undefined && {
          total: { name: 'the pump sweeps', text: printQuantity(swept, 'L/min', 2) },
        }),
      };
      return flowBarsSvg(chart, picture);
    },
    [flows, swept],
  );
  return (
    <section>
      <h2>
        Where each litre goes, at {idle.speedWords} and {idle.temperatureWords}
      </h2>
      <Drawing
        title="Where the oil goes"
        desc={flows.map(({ name, flow }) => `${name}: ${printQuantity(flow, 'L/min', 2)}`).join('; ')}
        draw={draw}
        widest={1240}
      />
    </section>
  );
}

/** What the prediction rests on, with the entries: strike one, and all of it moves. */
function Rests({ prediction }: { readonly prediction: Prediction }) {
  const now = book.value;
  return (
    <details class="working">
      <summary>Show the working</summary>
      <p>
        Flow through every clearance and passage is in balance at each node of the circuit; each element
        follows its law from the sheet. Clearances enter with their doubt, to first order. Sources of the
        laws: the calculator “oil-network”.
      </p>
      <ul class="lines">
        {prediction.circuit.parameters.map(
          ({ name, characteristic, factor, nominal, measured, trust, entries }) => {
            const read = measured && linear([{ factor: 1 / factor, of: measured }]);
            return (
              <li key={name}>
                <details>
                  <summary>
                    {name.replaceAll('_', ' ')}{' '}
                    <span class="soft">
                      {characteristic.name}
                      {factor === 1 ? '' : ` × ${factor}`}:{' '}
                      {read ? operandWords(characteristic, { kind: 'value', q: read }) : 'not measured'}; as
                      new {shown(characteristic, nominal / factor)} ({trust})
                    </span>
                  </summary>
                  <ul class="lines">
                    {entries.map((id) => {
                      const entry = now.entries.find((one) => one.id === id);
                      return entry ? (
                        <li key={id}>
                          {entryWords(now, entry)} <StrikeEntry entry={id} />
                        </li>
                      ) : null;
                    })}
                  </ul>
                </details>
              </li>
            );
          },
        )}
      </ul>
    </details>
  );
}
