import {
  type Assessed,
  type MeasuringMove,
  moneyWords,
  type PlanSet,
  planReasonWords,
  planWords,
  pressureUnit,
  pressureWords,
} from '@fettle/book';
import { book } from '../../state/job.ts';
import { moveWords } from '../../words/judgement.ts';
import { fullName } from '../../words/place.ts';
import type { PlanShown } from './oil-asked.ts';

const { money } = moneyWords;

interface Shown {
  readonly plan: PlanShown;
  readonly name: planWords.OfferName;
}

/** What measuring better could save before anything is bought. */
export function MeasuringFirst({ plan, name }: Shown) {
  const { moves } = plan;
  const [first] = moves;
  return (
    <>
      <h3>Measuring before buying</h3>
      {first === undefined ? (
        <p>{planWords.NO_MEASURING}</p>
      ) : (
        <p>
          <strong>
            {first.saving !== undefined && first.saving >= 0.5
              ? `Measuring better is the cheapest next move as long as it costs less than ${money(Math.round(first.saving), plan.currency)}.`
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
            {told(plan, move, name)}
          </li>
        ))}
      </ul>
    </>
  );
}

function told(plan: PlanShown, move: MeasuringMove, name: planWords.OfferName): string {
  const unit = pressureUnit(book.value);
  const names = {
    offer: name,
    judged: ({ characteristic, place }: Assessed) => fullName(characteristic, place),
    condition: (i: number) => planReasonWords.conditionWords(plan.conditions[i]!),
    pressure: (set: PlanSet, i: number) => pressureWords(set.pressures[i]!, unit),
  };
  return [
    ...planWords.measuringWords(move, plan, names),
    ...(move.about === 'verdict' && move.next ? [moveWords(move.judgement, move.next)] : []),
  ].join(' ');
}
