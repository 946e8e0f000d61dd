import { type Outcome, ok } from '@fettle/core';
import type { Assessment } from '../assess/assessment.ts';
import type { Catalogue } from '../assess/relations.ts';
import type { Book } from '../fold/book.ts';
import { type FinishedSize, finishedSizes } from '../slip/finished-size.ts';
import { type ChosenThickness, chosenThicknesses } from './chosen-thickness.ts';
import { type CommonSize, type CommonSizeAsked, commonSize } from './common-size.ts';
import { type DrawingSize, drawingSizes } from './drawing-size.ts';
import { familiesOf } from './size-family.ts';
import { type SkimAsked, type SkimBudget, skimBudget } from './skim-budget.ts';

export interface SizesAsked extends CommonSizeAsked {
  readonly skim?: SkimAsked;
}

export interface FamilySizes {
  readonly common: CommonSize;
  /** To suit parts that were measured. */
  readonly finished: readonly FinishedSize[];
  /** By the limits of what it mates with, at the size chosen. */
  readonly drawing: readonly DrawingSize[];
}

export interface JobSizes {
  readonly families: readonly FamilySizes[];
  readonly thicknesses: readonly ChosenThickness[];
  readonly skim?: SkimBudget;
}

/** To which sizes the parts go: common over- and undersizes, finished sizes, thicknesses to choose, and the skim left. */
export function jobSizes(
  book: Book,
  assessed: Assessment,
  catalogue: Catalogue,
  asked: SizesAsked = {},
): Outcome<JobSizes> {
  const families: FamilySizes[] = [];
  for (const family of familiesOf(book)) {
    const common = commonSize(book, assessed, family, asked);
    if (!common.ok) return common;
    const size = common.value.now?.name ?? common.value.chosen?.size.name;
    families.push({
      common: common.value,
      finished: family.positions
        .flatMap((position) => finishedSizes(book, catalogue, position))
        .filter(({ characteristic }) => characteristic.id === family.characteristic.id),
      drawing: size === undefined ? [] : drawingSizes(book, family, size),
    });
  }
  const taking = families.flatMap(({ common: { family, chosen, forces } }) =>
    chosen && forces.length > 0 ? [{ family, size: chosen.size.name }] : [],
  );
  const skim = skimBudget(book, assessed, catalogue, taking, asked.skim);
  if (skim && !skim.ok) return skim;
  return ok({
    families,
    thicknesses: chosenThicknesses(book, assessed.reckoning),
    ...(skim && { skim: skim.value }),
  });
}
