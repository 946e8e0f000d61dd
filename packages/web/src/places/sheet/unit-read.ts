import { amountOf, type Body } from '@fettle/book';

/** The unit in which an instrument is read when nothing else says. */
export function unitRead({ uncertainty, type }: Body<'instrument-declared'>): string {
  const unit = amountOf(uncertainty.expanded)?.unit ?? '';
  if (unit === 'K') return 'degC';
  if (unit !== '%') return unit;
  return type === 'torque wrench' ? 'lbf.ft' : 'lbf';
}
