import {
  exact,
  linear,
  type Outcome,
  ok,
  parseQuantity,
  term,
  type Uncertain,
  uncertain,
} from '@fettle/core';
import { limitsOf, siOf } from '../assess/limits.ts';
import { meanCubeOf, meanOf, type Operand, valued } from '../assess/operand.ts';
import type { Reckoning } from '../assess/reckoning.ts';
import { reducedOperand } from '../assess/reduced-operand.ts';
import type { Book } from '../fold/book.ts';
import { type FilledCircuit, type FilledParameter, filledCircuit } from '../oil/circuit.ts';
import { isAt, type Place } from '../sheet/places.ts';
import { circuitInlets } from './circuit-inlets.ts';
import type { Offer, Restored } from './offers.ts';

/** What one offer does to the oil: parameters of the circuit by their number, and the grade filled. */
interface OilEffect {
  readonly offer: Offer;
  readonly values: ReadonlyMap<number, Uncertain>;
  readonly grade?: string;
}

export interface OilModel {
  /** By grade; the sheet's own fill first. */
  readonly circuits: ReadonlyMap<string, FilledCircuit>;
  readonly fill: string;
  /** One an offer, of those that touch the oil. */
  readonly effects: readonly OilEffect[];
}

/** @param fill  the grade filled where no offer changes it */
export function oilModel(
  book: Book,
  reckoning: Reckoning,
  offers: readonly Offer[],
  fill: string,
): Outcome<OilModel> {
  const circuits = new Map<string, FilledCircuit>();
  const grades = new Set([fill, ...offers.flatMap(({ body }) => body.oil ?? [])]);
  for (const grade of grades) {
    const circuit = filledCircuit(book, reckoning, grade);
    if (!circuit.ok) return circuit;
    circuits.set(grade, circuit.value);
  }
  const { parameters } = circuits.get(fill)!;
  const places = parameters.map((parameter) => placesOf(book, reckoning, parameter));
  const effects = offers.flatMap((offer) => {
    const values = new Map<number, Uncertain>();
    parameters.forEach((parameter, i) => {
      const value = broughtTo(offer, parameter, places[i]!);
      if (value) values.set(i, value);
    });
    const grade = offer.body.oil;
    return values.size > 0 || grade !== undefined
      ? [{ offer, values, ...(grade !== undefined && { grade }) }]
      : [];
  });
  return ok({ circuits, fill, effects });
}

function placesOf(
  book: Book,
  reckoning: Reckoning,
  parameter: FilledParameter,
): { places: readonly Place[]; reduce: string } {
  const { characteristic, name } = parameter;
  const from = circuitInlets(book.sheet).find((inlet) => inlet.name === name)?.from;
  return {
    places: reckoning.places(characteristic).filter((place) => isAt(from?.at ?? {}, place)),
    reduce: from?.reduce ?? characteristic.reduce?.by ?? 'one',
  };
}

/** The value an offer brings a parameter to; nothing where it leaves a place of it as it was. */
function broughtTo(
  offer: Offer,
  parameter: FilledParameter,
  { places, reduce }: { places: readonly Place[]; reduce: string },
): Uncertain | undefined {
  const { characteristic, repair } = parameter;
  const whole = offer.body.repairs.find((one) => one.repair === repair);
  if (whole) return broughtValue(offer, parameter, { value: whole.value, doubt: whole.doubt });
  const restored = places.map((place) =>
    offer.body.restores.find((one) => one.characteristic === characteristic.id && isAt(one.at ?? {}, place)),
  );
  if (restored.length === 0 || restored.some((one) => !one)) return undefined;
  const operands = restored.map((one) => valued(broughtValue(offer, parameter, one!)));
  const all = reducedTo(reduce, operands);
  return all.kind === 'value' ? all.q : undefined;
}

function reducedTo(by: string, operands: readonly Operand[]): Operand {
  if (by === 'mean-cube') return meanCubeOf(operands);
  if (by === 'worst') return reducedOperand('greatest', operands);
  return by === 'one' || by === 'mean' ? meanOf(operands) : reducedOperand(by, operands);
}

/**
 * A restored value in the measurand of the element. All places that one offer restores share one cause of doubt: the
 * same hands make them, so what is a little wide at one may be so at all.
 */
function broughtValue(
  { id }: Offer,
  { characteristic, factor, repaired }: FilledParameter,
  one:
    | Partial<Pick<Restored, 'value' | 'doubt' | 'size'>>
    | { value: string | undefined; doubt: string | undefined },
): Uncertain {
  const value = (one.value === undefined ? undefined : siOf(one.value, characteristic)) ?? repaired / factor;
  const source = `offer:${id}:${characteristic.id}`;
  const stated =
    one.doubt === undefined || characteristic.kind === 'seen'
      ? undefined
      : parseQuantity(one.doubt, characteristic.kind);
  const doubt = stated?.ok ? term(source, stated.value.value / 2) : promised(characteristic, source);
  return linear([{ factor, of: doubt ? uncertain(value, doubt) : exact(value) }]);
}

/** Anywhere within the limits for new parts: half their width over √3. */
function promised(characteristic: FilledParameter['characteristic'], source: string) {
  const limits = limitsOf(characteristic, 'new', undefined);
  if (limits?.lower === undefined || limits.upper === undefined) return undefined;
  return term(source, (limits.upper - limits.lower) / 2 / Math.sqrt(3), 'rectangular');
}
