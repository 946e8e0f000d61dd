import { greatestOf, leastOf, meanCubeOf, meanOf, type Operand, rangeOf } from './operand.ts';

/** One number out of several places; `worst` has no direction here, so it is the greatest. */
export function reducedOperand(by: string, operands: readonly Operand[]): Operand {
  if (by === 'mean') return meanOf(operands);
  if (by === 'mean-cube') return meanCubeOf(operands);
  if (by === 'range') return rangeOf(operands);
  if (by === 'least') return leastOf(operands);
  return greatestOf(operands);
}
