import type { MeasuringMove, MostDoubt } from '@fettle/book';
import { book } from '../../state/job.ts';
import { moveWords } from '../../words/judgement.ts';
import { fullName } from '../../words/place.ts';
import { pressureUnit, pressureWords } from '../../words/pressure.ts';
import type { PlanShown } from './oil-asked.ts';
import { chanceWords, difference, money, type Name, runningWords } from './plan-words.ts';

interface Shown {
  readonly plan: PlanShown;
  readonly name: Name;
}

/** What measuring better could save before anything is bought. */
export function MeasuringFirst({ plan, name }: Shown) {
  const { moves } = plan;
  const [first] = moves;
  return (
    <>
      <h3>Measuring before buying</h3>
      {first === undefined ? (
        <p>
          No reading that is still in doubt decides between two plans: measuring better saves nothing here.
        </p>
      ) : (
        <p>
          <strong>
            {first.saving !== undefined && first.saving >= 0.5
              ? `Measuring better is the cheapest next move as long as it costs less than ${money(Math.round(first.saving))}.`
              : 'Measuring better is the next move: nothing on offer is sure enough.'}
          </strong>
        </p>
      )}
      <ul class="lines moves">
        {moves.map((move) => (
          <li
            key={
              move.about === 'verdict'
                ? fullName(move.judgement.characteristic, move.judgement.place)
                : 'band'
            }
          >
            {move.about === 'verdict' ? (
              <Verdict move={move} />
            ) : (
              <Band plan={plan} move={move} name={name} />
            )}
          </li>
        ))}
      </ul>
    </>
  );
}

function Verdict({ move }: { readonly move: Extract<MeasuringMove, { about: 'verdict' }> }) {
  const { judgement, chanceIn, extra, saving, next } = move;
  return (
    <>
      <strong>{fullName(judgement.characteristic, judgement.place)}</strong>: cannot tell, in with{' '}
      {chanceWords(chanceIn)}. Left alone in this plan; if it is out, {money(extra)} more. Measuring it before
      buying costs little and saves {money(Math.round(saving))} on average against buying for safety.
      {next ? ` ${moveWords(judgement, next)}` : ''}
    </>
  );
}

interface BandOf extends Shown {
  readonly move: Extract<MeasuringMove, { about: 'band' }>;
}

function Band({ plan, move, name }: BandOf) {
  const { cheaper, less, saving, most, condition } = move;
  const { running } = plan.conditions[condition]!;
  const unit = pressureUnit(book.value);
  return (
    <>
      {less === undefined
        ? `No plan is sure enough, but for ${money(cheaper.price)} the figures as they look would do (${chanceWords(cheaper.chance)}).`
        : `For ${money(cheaper.price)}, ${money(less)} less, the figures as they look would do, and are only not sure enough (${chanceWords(cheaper.chance)}; ${plan.best ? difference(plan.best, cheaper, name) : ''}). Knowing better could save up to ${money(Math.round(saving ?? 0))} on average.`}{' '}
      It is weakest at {runningWords(running)}: {pressureWords(cheaper.pressures[condition]!, unit)}.
      {mostWords(most, name)}
    </>
  );
}

function mostWords(most: MostDoubt | undefined, name: Name): string {
  if (!most) return '';
  const share = `${most.share > 0.99 ? 'over 99' : Math.round(most.share * 100)} % of the variance`;
  if (most.from.kind === 'offer')
    return ` Most of the doubt (${share}) is what ${name(most.from.offer)} leaves open in ${most.from.of}: measure that before it goes in, or ask for a closer promise.`;
  const { instrumentName, of, finer } = most.from;
  const what = of.length > 0 ? ` (${of.join(', ')})` : '';
  return ` Most of the doubt (${share}) comes from ${instrumentName}${what}: ${finer === undefined ? 'nothing owned is finer; read again and pool, or borrow' : `read that with ${finer}`}.`;
}
