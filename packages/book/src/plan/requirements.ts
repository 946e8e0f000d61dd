import type { Assessed } from '../assess/assessment.ts';
import { isAt, type Place } from '../sheet/places.ts';
import { isCured } from './cured.ts';
import type { Offer } from './offers.ts';

/** A verdict that forces a repair, and the offers any one of which settles it, place by place. */
export interface Requirement {
  readonly judgement: Assessed;
  /** For each place that is out, the offers that cure it; all of them must be met. */
  readonly curedBy: readonly (readonly string[])[];
}

/** The places of a judgement that have to come right before it can. */
function placesToCure(judgement: Assessed): readonly Place[] {
  const { members, governing, characteristic, status } = judgement;
  if (members.length === 0) return [judgement.place];
  // A mean or a range is cured as a whole.
  if ((characteristic.reduce?.by ?? 'worst') !== 'worst') return members.map(({ place }) => place);
  const bad = members.filter(({ verdicts }) => governing && verdicts[governing]?.verdict === status);
  return (bad.length > 0 ? bad : members).map(({ place }) => place);
}

/** What would settle a judgement; undefined where some place of it no offer can bring back. */
export function requirementOf(judgement: Assessed, offers: readonly Offer[]): Requirement | undefined {
  const { characteristic } = judgement;
  const curedBy = placesToCure(judgement).map((place) =>
    offers
      .filter(({ body }) =>
        body.restores.some(
          (one) =>
            one.characteristic === characteristic.id &&
            isAt(one.at ?? {}, place) &&
            isCured(characteristic, one),
        ),
      )
      .map(({ id }) => id),
  );
  if (curedBy.some((ids) => ids.length === 0)) return undefined;
  return { judgement, curedBy: [...new Map(curedBy.map((ids) => [ids.join(' '), ids])).values()] };
}
