/** Plus and minus, as fractions of the preload meant, by the way of tightening. @source vdi-2230 */
export const TIGHTENING_SCATTER: Readonly<Record<string, readonly [number, number]>> = {
  'yield or angle control': [0.05, 0.12],
  'hydraulic, elongation': [0.09, 0.23],
  'torque wrench, torque found by test on the joint': [0.17, 0.23],
  'torque wrench, friction estimated': [0.23, 0.28],
  'precision power driver': [0.26, 0.43],
  'impact wrench': [0.43, 0.6],
};

/**
 * Tightening factor, the greatest preload over the least: αA = (1 + s)/(1 − s).
 *
 * @param scatter  s, plus and minus, under 1
 * @source vdi-2230
 */
export function tighteningFactor(scatter: number): number {
  return (1 + scatter) / (1 - scatter);
}
