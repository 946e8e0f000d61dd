import {
  type CompiledNetwork,
  compiledNetwork,
  failed,
  type Issue,
  linear,
  type Outcome,
  ok,
  standardUncertainty,
  term,
  type Uncertain,
  uncertain,
} from '@fettle/core';
import { judgementsOf } from '../assess/judgement.ts';
import type { Known } from '../assess/known.ts';
import { siOf } from '../assess/limits.ts';
import { MISSING, meanCubeOf, meanOf, type Operand } from '../assess/operand.ts';
import type { Reckoning } from '../assess/reckoning.ts';
import { reducedOperand } from '../assess/reduced-operand.ts';
import { narrowed } from '../assess/verdict.ts';
import type { Book } from '../fold/book.ts';
import { isAt, type Place } from '../sheet/places.ts';
import type { Characteristic, FromCharacteristic, SpecSheet, Trust } from '../sheet/sheet.ts';

/** One parameter of the circuit that a characteristic gives: as new, as repaired, and as measured. */
export interface FilledParameter {
  /** `element.parameter`, as the network names it. */
  readonly name: string;
  readonly characteristic: Characteristic;
  /** From the characteristic's own measurand to the element's: ½ from diametral to radial. */
  readonly factor: number;
  /** Parameters of one repair are restored together. */
  readonly repair: string;
  /** As new [SI], its factor applied. */
  readonly nominal: number;
  readonly trust: Trust;
  readonly repaired: number;
  /** Undefined: not measured, so the nominal value stands in, and is shown to. */
  readonly measured?: Uncertain;
  readonly entries: readonly string[];
}

export interface FilledCircuit {
  readonly network: CompiledNetwork;
  /** The complete input of the `oil-network` calculator, everything as new but for what is replaced. */
  readonly input: Readonly<Record<string, unknown>>;
  readonly gauge: string;
  readonly parameters: readonly FilledParameter[];
}

type Oil = NonNullable<SpecSheet['oil']>;

/**
 * The sheet's circuit with every clearance that was measured put in.
 *
 * @param grade  key of the sheet's oil grades; the one filled when absent
 */
export function filledCircuit(book: Book, reckoning: Reckoning, grade?: string): Outcome<FilledCircuit> {
  const oil = book.sheet?.oil;
  if (!oil?.circuit)
    return failed({
      code: 'oil/no-circuit',
      at: '/oil/circuit',
      got: 'a spec sheet without a circuit',
      wanted: 'the oil circuit of the engine',
      message:
        'The spec sheet has no oil circuit, so no pressure can be predicted. Add one under oil.circuit.',
    });
  const chosen = oil.grades[grade ?? oil.fill];
  if (!chosen)
    return failed({
      code: 'oil/unknown-grade',
      at: '/oil/grades',
      got: grade ?? oil.fill,
      wanted: Object.keys(oil.grades).join(', '),
      message: `The spec sheet has no oil "${grade ?? oil.fill}". Choose one of ${Object.keys(oil.grades).join(', ')}.`,
    });
  const issues: Issue[] = [];
  const parameters: FilledParameter[] = [];
  const elements = oil.circuit.elements.map((element) =>
    Object.fromEntries(
      Object.entries(element).map(([key, value]) => {
        if (!isFrom(value)) return [key, value];
        const filled = filledParameter(book, reckoning, `${String(element.id)}.${key}`, value);
        if (!filled.ok) {
          issues.push(...filled.issues);
          return [key, Number.NaN];
        }
        parameters.push(filled.value);
        return [key, filled.value.nominal];
      }),
    ),
  );
  if (issues.length > 0) return failed(...issues);
  const input = { ...oil.circuit, elements, fluid: fluidOf(oil, chosen) };
  const network = compiledNetwork(input);
  if (!network.ok) return network;
  return ok({ network: network.value, input, gauge: oil.circuit.gauge, parameters });
}

const fluidOf = (oil: Oil, { kv40, kv100 }: { kv40: string; kv100: string }) => ({
  ...((oil.circuit?.fluid as Record<string, unknown> | undefined) ?? {}),
  kv40,
  kv100,
  density15: oil.density15,
});

const isFrom = (value: unknown): value is FromCharacteristic =>
  typeof value === 'object' && value !== null && 'from' in value && 'nominal' in value;

function filledParameter(
  book: Book,
  reckoning: Reckoning,
  name: string,
  from: FromCharacteristic,
): Outcome<FilledParameter> {
  const characteristic = book.characteristics.get(from.from);
  const nominal = characteristic && siOf(from.nominal, characteristic);
  const repaired = characteristic && siOf(from.repaired ?? from.nominal, characteristic);
  if (!characteristic || nominal === undefined || repaired === undefined)
    return failed({
      code: 'oil/unreadable-parameter',
      at: name,
      got: `${from.from}, nominal ${from.nominal}`,
      wanted: 'a characteristic of the sheet and a quantity of its kind',
      message: `${name} of the oil circuit takes ${from.from} with nominal ${from.nominal}, which does not read. Correct the spec sheet.`,
    });
  const { measured, entries } = measuredOf(reckoning, characteristic, from);
  return ok({
    name,
    characteristic,
    factor: from.factor,
    repair: from.repair ?? characteristic.name,
    nominal: nominal * from.factor,
    trust: from.trust,
    repaired: repaired * from.factor,
    ...(measured && { measured: linear([{ factor: from.factor, of: measured }]) }),
    entries,
  });
}

/** What was measured of a characteristic, brought to one number; nothing when that cannot be had. */
export function measuredOf(
  reckoning: Reckoning,
  characteristic: Characteristic,
  from: Pick<FromCharacteristic, 'from' | 'at' | 'reduce'>,
): { readonly measured?: Uncertain; readonly entries: readonly string[] } {
  const places = reckoning.places(characteristic).filter((place) => isAt(from.at ?? {}, place));
  const known = places.map((place) => reckoning.at(characteristic.id, place));
  const by = from.reduce ?? characteristic.reduce?.by ?? 'one';
  const measured = asNumber(
    by === 'worst' ? worstOf(reckoning, characteristic, from.at ?? {}) : reduced(by, known.map(effective)),
    `${from.from}@${JSON.stringify(from.at ?? {})}`,
  );
  return measured
    ? { measured, entries: [...new Set(known.flatMap(({ entries }) => entries))] }
    : { entries: [] };
}

const effective = ({ operand, cut }: Known): Operand =>
  cut && operand.kind === 'value' ? { kind: 'value', q: narrowed(operand.q, cut) } : operand;

function reduced(by: string, operands: readonly Operand[]): Operand {
  if (by === 'one') return operands.length === 1 ? operands[0]! : meanOf(operands);
  if (by === 'mean') return meanOf(operands);
  if (by === 'mean-cube') return meanCubeOf(operands);
  return reducedOperand(by, operands);
}

/** The place least likely to be within the limits that judge the part as it is, at the size it was brought to. */
function worstOf(reckoning: Reckoning, characteristic: Characteristic, at: Place): Operand {
  const members = judgementsOf(reckoning, characteristic).flatMap((judgement) =>
    judgement.members
      .filter(({ place }) => isAt(at, place))
      .map((member) => ({ member, set: judgement.governing })),
  );
  const chance = ({ member: { verdicts }, set }: (typeof members)[number]): number =>
    (set && verdicts[set]?.probabilityIn) ?? 0.5;
  const operands = members.sort((a, b) => chance(a) - chance(b)).map(({ member }) => effective(member.known));
  return characteristic.limits ? (operands[0] ?? MISSING) : reducedOperand('greatest', operands);
}

/**
 * A bracket alone feeds the circuit as anything between its edges; one edge alone gives no value.
 *
 * @param name  of the thing, not of the parameter: what feeds two elements is drawn once for both
 */
function asNumber(operand: Operand, name: string): Uncertain | undefined {
  if (operand.kind === 'value') return operand.q;
  if (operand.kind === 'missing' || !operand.lower || !operand.upper) return undefined;
  const { lower, upper } = operand;
  return uncertain(
    (lower.value + upper.value) / 2,
    term(`bracket:${name}`, (upper.value - lower.value) / Math.sqrt(12), 'rectangular'),
    term(`bracket-edges:${name}`, Math.hypot(standardUncertainty(lower), standardUncertainty(upper)) / 2),
  );
}
