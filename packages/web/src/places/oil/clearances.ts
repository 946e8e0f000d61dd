import type { Characteristic, FilledCircuit, FilledParameter } from '@fettle/book';
import { exact } from '@fettle/core';

/** What one measurement of the circuit is, everywhere it feeds it: the mains, the rods, the pump's end. */
export interface Clearance {
  readonly id: string;
  readonly characteristic: Characteristic;
  readonly repair: string;
  readonly parameters: readonly FilledParameter[];
  /** As the mean over its places, in the characteristic's own measurand [SI]. */
  readonly asNew: number;
  /** The same as measured; absent where nothing was. */
  readonly found?: number;
  /** How far it can be dragged [SI]. */
  readonly from: number;
  readonly to: number;
}

const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;
const present = ({ measured, nominal }: FilledParameter): number => measured?.value ?? nominal;

/** Everything of the circuit that a characteristic gives, the parts of one repair together, in the circuit's order. */
export function clearancesOf({ parameters }: FilledCircuit): Clearance[] {
  const groups = new Map<string, FilledParameter[]>();
  for (const parameter of parameters) {
    const key = `${parameter.characteristic.id} ${parameter.repair}`;
    groups.set(key, [...(groups.get(key) ?? []), parameter]);
  }
  return [...groups].map(([id, own]) => {
    const asNew = mean(own.map(({ nominal, factor }) => nominal / factor));
    const found = mean(own.map((one) => present(one) / one.factor));
    const measured = own.some((one) => one.measured);
    const [least, most] = [Math.min(asNew, found), Math.max(asNew, found)];
    const worn = most - least;
    return {
      id,
      characteristic: own[0]!.characteristic,
      repair: own[0]!.repair,
      parameters: own,
      asNew,
      ...(measured && { found }),
      // From somewhat better than the better to as much again beyond the worse.
      from: Math.max(least / 4, least - Math.max(worn / 2, least / 4)),
      to: most + Math.max(worn, most / 4),
    };
  });
}

/** Where it stands with some of its parameters tried, as the mean over its places [SI]. */
export const standing = ({ parameters }: Clearance, values: Readonly<Record<string, number>>): number =>
  mean(parameters.map((one) => (values[one.name] ?? present(one)) / one.factor));

/**
 * Every parameter of a clearance when its mean is dragged somewhere: between as new and as measured each keeps its own
 * share of the way, so that both ends are what they were; beyond either end all move by the same.
 */
export function valuesAt(clearance: Clearance, at: number): Record<string, number> {
  const { asNew, parameters } = clearance;
  const found = clearance.found ?? asNew;
  const share = found === asNew ? 0 : (at - asNew) / (found - asNew);
  return Object.fromEntries(
    parameters.map((one) => {
      const [clean, worn] = [one.nominal / one.factor, present(one) / one.factor];
      const value =
        found !== asNew && share >= 0 && share <= 1
          ? clean + share * (worn - clean)
          : Math.abs(at - found) <= Math.abs(at - asNew)
            ? worn + (at - found)
            : clean + (at - asNew);
      return [one.name, value * one.factor];
    }),
  );
}

/** Every parameter of a repair, so much of the way from as measured to repaired. */
export const partlyRepaired = (
  { parameters }: FilledCircuit,
  repair: string,
  share: number,
): Record<string, number> =>
  Object.fromEntries(
    parameters
      .filter((one) => one.repair === repair)
      .map((one) => [one.name, present(one) + share * (one.repaired - present(one))]),
  );

/** How much of a repair the tried values make; undefined where none of its parameters is tried. */
export function shareRepaired(
  { parameters }: FilledCircuit,
  repair: string,
  values: Readonly<Record<string, number>>,
): number | undefined {
  const tried = parameters.filter((one) => one.repair === repair && values[one.name] !== undefined);
  if (tried.length === 0) return undefined;
  const shares = tried.flatMap((one) => {
    const whole = one.repaired - present(one);
    return whole === 0 ? [] : [(values[one.name]! - present(one)) / whole];
  });
  return shares.length === 0 ? 0 : mean(shares);
}

/** The circuit as though the values tried had been measured, without doubt. */
export const circuitTried = (
  circuit: FilledCircuit,
  values: Readonly<Record<string, number>>,
): FilledCircuit =>
  Object.keys(values).length === 0
    ? circuit
    : {
        ...circuit,
        parameters: circuit.parameters.map((one) => {
          const tried = values[one.name];
          return tried === undefined ? one : { ...one, measured: exact(tried) };
        }),
      };

/** A step that a hand can follow: 1, 2 or 5 of some place of the unit, about a hundredth of the way. */
export function handStep(span: number): number {
  if (!(span > 0)) return 1;
  const ten = 10 ** Math.floor(Math.log10(span / 100));
  const rest = span / 100 / ten;
  return (rest < 1.5 ? 1 : rest < 3.5 ? 2 : rest < 7.5 ? 5 : 10) * ten;
}
