import { type Planning, planningOf, type RepairPlan, repairPlan } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { type CostChart, costFrontierSvg, type Picture } from '@fettle/draw';
import { useCallback, useEffect, useState } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { assessed, book } from '../../state/job.ts';
import { pressureUnit, pressureWords, wantedWords } from '../../words/pressure.ts';
import { grade } from './grade-choice.tsx';
import {
  chanceWords,
  difference,
  leftOutWords,
  listed,
  listedJudgements,
  money,
  type Name,
  readyWords,
  reasonWords,
  runningWords,
} from './plan-words.ts';

/** How sure the plan has to be of every pressure the sheet wants. */
const CONFIDENCE = 0.95;
/** The plan waits until whoever taps has seen what was tapped [ms]. */
const AT_REST = 120;

type Planned = Planning & RepairPlan;

/** Worked out behind the page's back, anew after each change of the book. */
function usePlan(): Planned | readonly Issue[] | undefined {
  const now = book.value;
  const judged = assessed.value;
  const chosen = grade.value;
  const [found, setFound] = useState<Planned | readonly Issue[] | undefined>(undefined);
  useEffect(() => {
    const waiting = setTimeout(() => {
      try {
        const planning = planningOf(now, judged, {
          confidence: CONFIDENCE,
          ...(chosen !== undefined && { grade: chosen }),
        });
        setFound(planning.ok ? { ...planning.value, ...repairPlan(planning.value) } : planning.issues);
      } catch (error) {
        if (!(error instanceof RangeError)) throw error;
        setFound([
          { code: 'oil/no-balance', at: '', got: '', wanted: '', message: `No plan: ${error.message}` },
        ]);
      }
    }, AT_REST);
    return () => clearTimeout(waiting);
  }, [now, judged, chosen]);
  return found;
}

/** The cheapest repairs on offer that settle what is out and bring the pressure back. */
export function Plan() {
  const plan = usePlan();
  return (
    <section class="plan">
      <h2>The cheapest repair that does it</h2>
      {plan === undefined ? <p class="soft">Working it out …</p> : null}
      {plan !== undefined && 'offers' in plan ? <Found plan={plan} /> : null}
      {plan !== undefined && !('offers' in plan) ? <NotPlanned issues={plan} /> : null}
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

function Found({ plan }: { readonly plan: Planned }) {
  const name: Name = (id) => plan.offers.find((one) => one.id === id)?.body.name ?? id;
  const { best, next, cap, late, unoffered, unread, refused } = plan;
  return (
    <>
      {best ? <Best plan={plan} best={best} name={name} /> : <NoneDoes plan={plan} name={name} />}
      <Pressures plan={plan} />
      {best ? (
        <p>
          {next
            ? `The next cheapest plan: ${money(next.price)} (${difference(best, next, name)}), ${chanceWords(next.chance)}, there ${readyWords(next.days)}.`
            : 'No other plan does: each part of it is the only way to something.'}
        </p>
      ) : null}
      {late.length > 0 ? <p class="issue">Not in time: {listed(late)}.</p> : null}
      {unoffered.length > 0 ? <p>Out, and no offer for it yet: {listedJudgements(unoffered)}.</p> : null}
      {unread.length > 0 ? (
        <p class="soft">Not read yet; were it out, the plan may change: {listedJudgements(unread)}.</p>
      ) : null}
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
                  {one.offer.body.name}, {money(one.offer.body.price)}.
                </strong>{' '}
                {leftOutWords(one, best, name)}
              </li>
            ))}
          </ul>
        </>
      ) : null}
      {plan.frontier.length > 1 && plan.conditions.length > 0 ? (
        <MoneyBuys plan={plan} cap={cap} name={name} />
      ) : null}
      <p class="soft">
        The search is exact over the offers on record. An offer cures what it says it does, and is proven only
        when it is measured in place. The chance goes by the doubt of readings and offers alone, to first
        order: the circuit’s assumed constants carry none, so it says more than is known.
      </p>
    </>
  );
}

interface BestOf {
  readonly plan: Planned;
  readonly best: NonNullable<Planned['best']>;
  readonly name: Name;
}

function Best({ plan, best, name }: BestOf) {
  const { cap, chosen, conditions } = plan;
  const over = cap !== undefined && best.price > cap;
  return (
    <>
      <p class="figure">
        Price {money(best.price)}
        {best.offers.length === 0 ? ': nothing has to be bought' : `, all there ${readyWords(best.days)}`}
      </p>
      {conditions.length > 0 ? (
        <p>
          Every pressure as wanted: {chanceWords(best.chance)} (asked for: {chanceWords(CONFIDENCE)}).
        </p>
      ) : null}
      {over ? (
        <p class="issue">
          Over the cap: {money(best.price - cap)} more than {money(cap)}. No cheaper set does it.
        </p>
      ) : null}
      {cap !== undefined && !over ? (
        <p>
          {money(cap - best.price)} under the cap of {money(cap)}.
        </p>
      ) : null}
      <ul class="lines offers">
        {chosen.map((one) => (
          <li key={one.offer.id}>
            <span class="offer-name">
              <strong>{one.offer.body.name}</strong>
              <strong>
                {money(one.offer.body.price)}
                {one.offer.body.trust === 'assumed' ? ' (assumed)' : ''}
              </strong>
            </span>
            There {readyWords(one.ready)}. {reasonWords(one, name).join(' ')}
            {one.byWearOnly.length > 0
              ? ` Caution: in by the limits for wear only, out by those for new parts: ${one.byWearOnly.join(', ')}.`
              : ''}
          </li>
        ))}
      </ul>
    </>
  );
}

function NoneDoes({ plan, name }: { readonly plan: Planned; readonly name: Name }) {
  const most = plan.frontier.at(-1);
  return most ? (
    <p class="issue">
      No set of these offers is {chanceWords(CONFIDENCE)} sure. The surest is {chanceWords(most.chance)}, for{' '}
      {money(most.price)}: {most.offers.map(name).join(', ') || 'nothing bought'}.
    </p>
  ) : (
    <p class="issue">
      What is out cannot all be settled by these offers: what one needs is missing, late, or excluded by
      another.
    </p>
  );
}

function Pressures({ plan }: { readonly plan: Planned }) {
  const { best, conditions, asNow, dryBecause } = plan;
  if (asNow.pressures.length === 0)
    return (
      <p class="soft">
        {dryBecause ? `Pressure not looked at: ${dryBecause.message}` : 'The sheet wants no pressure.'}
      </p>
    );
  const unit = pressureUnit(plan.book);
  const shown = best ?? plan.frontier.at(-1);
  return (
    <ul class="lines planned">
      {conditions.map(({ running, wanted }, i) => (
        <li key={runningWords(running)}>
          <strong>{runningWords(running)}</strong>, wanted {wantedWords(wanted)}: as measured{' '}
          {pressureWords(asNow.pressures[i]!, unit)}
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
  const { frontier, best } = plan;
  const draw = useCallback(
    (picture: Picture): string => {
      const chart: CostChart = {
        priceAxis: 'price',
        chanceAxis: 'chance, %',
        points: frontier.map((one, i) => ({
          price: one.price,
          chance: one.chance,
          name: String(i + 1),
          best: one.price === best?.price,
        })),
        wanted: { chance: CONFIDENCE, text: `asked for ${chanceWords(CONFIDENCE)}` },
        ...(cap !== undefined && { cap: { price: cap, text: `cap ${money(cap)}` } }),
      };
      return costFrontierSvg(chart, picture);
    },
    [frontier, best, cap],
  );
  return (
    <>
      <h3>What money buys</h3>
      <Drawing
        title="The chance of every pressure wanted, by price"
        desc={frontier.map(({ price, chance }) => `${money(price)}: ${chanceWords(chance)}`).join('; ')}
        draw={draw}
        widest={1000}
      />
      <ol class="bought">
        {frontier.map((one, i) => (
          <li key={one.price}>
            {money(one.price)}: {chanceWords(one.chance)}
            {i === 0 ? ', the least that has to be' : `, ${difference(frontier[i - 1]!, one, name)}`}.
          </li>
        ))}
      </ol>
    </>
  );
}
