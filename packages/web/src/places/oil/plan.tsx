import {
  type FilledCircuit,
  gaugePressure,
  moneyWords,
  planReasonWords,
  planWords,
  planWorking,
  pressureUnit,
  pressureVerdict,
  pressureWords,
  wantedWords,
} from '@fettle/book';
import type { Issue, Uncertain } from '@fettle/core';
import { type CostChart, costFrontierSvg, type Picture } from '@fettle/draw';
import { useCallback, useMemo } from 'preact/hooks';
import { BlockShown } from '../../parts/block.tsx';
import { Drawing } from '../../parts/drawing.tsx';
import { FoldOut } from '../../parts/fold-out.tsx';
import { SmallVerdict } from '../../parts/verdict.tsx';
import { book } from '../../state/job.ts';
import { ConfidenceChoice, confidence } from './confidence.tsx';
import { grade } from './grade-choice.tsx';
import { isNothing, type Thought, thought, thoughtIn } from './lifted.ts';
import { MeasuringFirst } from './measuring-first.tsx';
import type { PlanShown } from './oil-asked.ts';
import { useWorked } from './worked.ts';

const { money, chance: chanceWords, daysWords } = moneyWords;
const { difference } = planWords;
const { conditionWords } = planReasonWords;
type Name = planWords.OfferName;

type Planned = PlanShown;

/** What is thought as values of parameters: a plan knows no repairs but those on offer. */
const valuesOf = (circuit: FilledCircuit, { repairs, values }: Thought): Thought['values'] => ({
  ...Object.fromEntries(
    circuit.parameters
      .filter(({ repair }) => repairs.includes(repair))
      .map(({ name, repaired }) => [name, repaired]),
  ),
  ...values,
});

/** The cheapest repairs on offer that settle what is out and bring the pressure back. */
export function Plan({ circuit }: { readonly circuit: FilledCircuit }) {
  const said = thought.value;
  const of = useMemo(() => thoughtIn(circuit, said), [circuit, said]);
  const { answer, busy } = useWorked({
    about: 'plan',
    confidence: confidence(),
    grade: grade.value,
    values: valuesOf(circuit, of),
  });
  return (
    <section class="plan" data-busy={busy}>
      <h2>The cheapest repair that does it</h2>
      <ConfidenceChoice />
      {isNothing(of) ? null : (
        <p class="soft">
          With the engine as thought: its pressures start from what is tried; verdicts stay those of the
          readings.
        </p>
      )}
      {answer === undefined ? <p class="soft">Working it out …</p> : null}
      {answer?.ok ? <Found plan={answer.value} circuit={circuit} of={of} /> : null}
      {answer && !answer.ok ? <NotPlanned issues={answer.issues} /> : null}
    </section>
  );
}

function NotPlanned({ issues }: { readonly issues: readonly Issue[] }) {
  return issues.some(({ code }) => code === 'plan/no-offers') ? (
    <p>
      No repair is on offer yet. Say what each would cost, on the command line:{' '}
      <code>fettle offer JOB spring "Relief spring" --price 26 --restores relief.rate --trust quoted</code>
    </p>
  ) : (
    issues.map(({ code, message }) => (
      <p key={code} class="issue">
        {message}
      </p>
    ))
  );
}

interface Shown {
  readonly plan: Planned;
  readonly circuit: FilledCircuit;
  readonly of: Thought;
}

function Found({ plan, circuit, of }: Shown) {
  const name = planReasonWords.offerNames(plan);
  const { best, cap, refused } = plan;
  return (
    <>
      {best ? <Best plan={plan} best={best} name={name} /> : <NoneDoes plan={plan} name={name} />}
      <Pressures plan={plan} circuit={circuit} of={of} />
      <MeasuringFirst plan={plan} name={name} />
      {best ? <p>{planReasonWords.nextPlanWords(plan, name)}</p> : null}
      {planReasonWords.openWords(plan).map((open) => (
        <p key={open}>{open}</p>
      ))}
      {refused.map(({ offer, issues }) => (
        <p key={offer.offer} class="issue">
          {offer.name} cannot be reckoned with: {issues[0]?.message}
        </p>
      ))}
      {best && plan.leftOut.length > 0 ? (
        <>
          <h3>Left out</h3>
          <ul class="lines">
            {plan.leftOut.map((one) => (
              <li key={one.offer.id}>
                <strong>
                  {one.offer.body.name}, {money(one.offer.body.price, plan.currency)}.
                </strong>{' '}
                {planReasonWords.leftOutWords(one, plan, name)}
              </li>
            ))}
          </ul>
        </>
      ) : null}
      {plan.frontier.length > 1 && plan.conditions.length > 0 ? (
        <MoneyBuys plan={plan} cap={cap} name={name} />
      ) : null}
      {planReasonWords.planGrounds(plan).map((ground) => (
        <p key={ground} class="soft">
          {ground}
        </p>
      ))}
      <FoldOut summary="Show the working of the plan">
        {() => planWorking(book.value, plan).map((block) => <BlockShown key={block.title} block={block} />)}
      </FoldOut>
    </>
  );
}

interface JudgedPressure {
  readonly wanted: Planned['conditions'][number]['wanted'];
  readonly q: Uncertain;
  readonly unit: string;
}

function Judged({ wanted, q, unit }: JudgedPressure) {
  const verdict = pressureVerdict(wanted, q);
  return (
    <>
      {pressureWords(q, unit)} {verdict ? <SmallVerdict status={verdict} /> : null}
    </>
  );
}

interface BestOf {
  readonly plan: Planned;
  readonly best: NonNullable<Planned['best']>;
  readonly name: Name;
}

function Best({ plan, best, name }: BestOf) {
  const { cap, chosen } = plan;
  const over = cap !== undefined && best.price > cap;
  const unit = pressureUnit(book.value);
  return (
    <>
      <p class="figure">
        {best.offers.length === 0 ? 'Nothing has to be bought' : `Price ${money(best.price, plan.currency)}`}
      </p>
      {plan.currency === undefined ? <p class="soft">{moneyWords.NO_CURRENCY}</p> : null}
      <p class={over ? 'issue' : undefined}>{planReasonWords.totalWords(plan)}</p>
      <ul class="lines offers">
        {chosen.map((one) => (
          <li key={one.offer.id}>
            <span class="offer-name">
              <strong>{one.offer.body.name}</strong>
              <strong>
                {money(one.offer.body.price, plan.currency)}
                {one.offer.body.trust === 'assumed' ? ' (assumed)' : ''}
              </strong>
            </span>
            {one.ready === 0 ? 'There at once.' : `There after ${daysWords(one.ready)}.`}{' '}
            {[
              ...planReasonWords.reasonWords(one, name),
              ...planReasonWords.gainWords(plan, one, unit),
              ...planReasonWords.wearWords(one),
            ].join(' ')}
          </li>
        ))}
      </ul>
    </>
  );
}

const NoneDoes = ({ plan, name }: { readonly plan: Planned; readonly name: Name }) => (
  <p class="issue">{planReasonWords.noPlanWords(plan, name)}</p>
);

/** The gauge as thought where a pressure is wanted: at once, before the plan has followed. */
function asThought(circuit: FilledCircuit, { conditions }: Planned, of: Thought): Uncertain[] | undefined {
  if (isNothing(of)) return undefined;
  try {
    return conditions.map(({ running }) => gaugePressure(circuit, running, { as: 'tried', ...of }));
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

function Pressures({ plan, circuit, of }: Shown) {
  const { best, conditions, asNow, dryBecause } = plan;
  if (asNow.pressures.length === 0)
    return (
      <p class="soft">
        {dryBecause ? `Pressure not looked at: ${dryBecause.message}` : 'The sheet wants no pressure.'}
      </p>
    );
  const unit = pressureUnit(book.value);
  const starts = asThought(circuit, plan, of);
  const shown = best ?? plan.frontier.at(-1);
  return (
    <ul class="lines planned">
      {conditions.map((condition, i) => (
        <li key={conditionWords(condition)}>
          <strong>{conditionWords(condition)}</strong>, wanted {wantedWords(condition.wanted)}:{' '}
          {starts ? 'as thought' : 'as measured'}{' '}
          <Judged wanted={condition.wanted} q={starts?.[i] ?? asNow.pressures[i]!} unit={unit} />
          {shown ? (
            <>
              , {best ? 'with the plan' : 'with the surest set'}{' '}
              <strong>{pressureWords(shown.pressures[i]!, unit)}</strong>, chance{' '}
              {chanceWords(shown.chances[i]!)}
            </>
          ) : null}
          .
        </li>
      ))}
    </ul>
  );
}

interface Bought {
  readonly plan: Planned;
  readonly cap: number | undefined;
  readonly name: Name;
}

function MoneyBuys({ plan, cap, name }: Bought) {
  const { frontier, best, confidence: asked } = plan;
  const draw = useCallback(
    (picture: Picture): string => {
      const chart: CostChart = {
        priceAxis: plan.currency === undefined ? 'price' : `price, ${plan.currency}`,
        chanceAxis: 'chance, %',
        points: frontier.map((one, i) => ({
          price: one.price,
          chance: one.chance,
          name: String(i + 1),
          best: one.price === best?.price,
        })),
        wanted: { chance: asked, text: `asked for ${chanceWords(asked)}` },
        ...(cap !== undefined && { cap: { price: cap, text: `cap ${money(cap, plan.currency)}` } }),
      };
      return costFrontierSvg(chart, picture);
    },
    [frontier, best, cap, asked, plan.currency],
  );
  return (
    <>
      <h3>What money buys</h3>
      <Drawing
        title="The chance of every pressure wanted, by price"
        desc={frontier
          .map(({ price, chance }) => `${money(price, plan.currency)}: ${chanceWords(chance)}`)
          .join('; ')}
        draw={draw}
        widest={1000}
      />
      <ol class="bought">
        {frontier.map((one, i) => (
          <li key={one.price}>
            {money(one.price, plan.currency)}: {chanceWords(one.chance)}
            {i === 0 ? ', the least that has to be' : `, ${difference(frontier[i - 1]!, one, name)}`}.
          </li>
        ))}
      </ol>
    </>
  );
}
