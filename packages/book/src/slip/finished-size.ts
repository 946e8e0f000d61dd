import { parseQuantity, type Uncertain } from '@fettle/core';
import { type Limits, limitsOf } from '../assess/limits.ts';
import { Reckoning } from '../assess/reckoning.ts';
import type { Catalogue } from '../assess/relations.ts';
import { onTrial } from '../assess/selection.ts';
import type { Book, Part } from '../fold/book.ts';
import { axesIn, isAt, type Place, placeAlong, placesOf, positionAt } from '../sheet/places.ts';
import type { Relation } from '../sheet/relation.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { type ProvenSize, provenSize } from './proven-size.ts';

/** The size that suits a new part which was measured: bore 1 to suit piston P1. */
export interface FinishedSize {
  readonly characteristic: Characteristic;
  /** Where, as far as the part that it suits says. */
  readonly at: Place;
  /** Limits in SI that give the clearance its limits for new parts. */
  readonly limits: Limits;
  /** What of these a verdict on arrival can prove with what one owns. */
  readonly proven?: ProvenSize;
  readonly suits: readonly { readonly part: Part; readonly of: Characteristic; readonly q: Uncertain }[];
  readonly clearance: Characteristic;
  readonly entries: readonly string[];
}

/** How finished sizes are worked out; another way may be put in its place. */
export type FinishedSizes = (book: Book, catalogue: Catalogue, position: string) => FinishedSize[];

interface Term {
  readonly factor: number;
  readonly of: Characteristic;
}

/**
 * Finished sizes from new parts that were measured and a clearance with limits for new parts:
 *
 *     size = (clearance − constant − Σ fᵢ partᵢ) / f
 *
 * for each limit of the clearance. It takes differences of parts measured alone; what is measured only with its mates,
 * such as a shell in its housing, gives none.
 */
export const finishedSizes: FinishedSizes = (book, catalogue, position) =>
  [...book.characteristics.values()].flatMap((clearance) => {
    const sum = termsOf(book, clearance.relation);
    const limits = limitsOf(clearance, 'new', undefined);
    if (!sum || !limits || clearance.kind === 'seen') return [];
    const own = sum.terms.filter(({ of }) => isAtPosition(book, of, position));
    const others = sum.terms.filter((term) => !own.includes(term));
    const [made] = own;
    if (own.length !== 1 || !made || others.length === 0) return [];
    if (others.some(({ of }) => of.position === undefined || of.mates !== undefined)) return [];
    const axes = [...new Set(others.flatMap(({ of }) => of.places))];
    return placesOf(book.sheet ?? { axes: {} }, {
      places: axes,
      ...(clearance.only && { only: clearance.only }),
    })
      .map((at) => sizeAt(book, catalogue, { clearance, limits, made, others, at, constant: sum.constant }))
      .filter((found) => found !== undefined);
  });

interface At {
  readonly clearance: Characteristic;
  readonly limits: Limits;
  readonly made: Term;
  readonly others: readonly Term[];
  readonly at: Place;
  readonly constant: number;
}

function sizeAt(
  book: Book,
  catalogue: Catalogue,
  { clearance, limits, made, others, at, constant }: At,
): FinishedSize | undefined {
  const found = others.map(({ factor, of }) => {
    const place = placeAlong(at, of.places);
    for (const part of newPartsAt(book, of, place)) {
      const trial = new Reckoning(
        book,
        onTrial(book, { [positionAt(of.position!, at)]: part.id }),
        catalogue,
      );
      const { operand, entries } = trial.at(of.id, place);
      if (operand.kind === 'value') return { part, of, factor, q: operand.q, entries };
    }
    return undefined;
  });
  if (found.some((one) => one === undefined)) return undefined;
  const parts = found.map((one) => one!);
  const rest = parts.reduce((sum, { factor, q }) => sum + factor * q.value, constant);
  const size = (of: number | undefined): number | undefined =>
    of === undefined ? undefined : (of - rest) / made.factor;
  const [one, other] = [size(limits.lower), size(limits.upper)];
  const [lower, upper] = made.factor > 0 ? [one, other] : [other, one];
  const target = size(limits.target);
  const asked: Limits = {
    ...(lower !== undefined && { lower }),
    ...(upper !== undefined && { upper }),
    ...(target !== undefined && { target }),
  };
  const proven = provenSize(book, made, parts, asked);
  return {
    characteristic: made.of,
    at: placeAlong(at, made.of.places),
    limits: asked,
    ...(proven && { proven }),
    suits: parts.map(({ part, of, q }) => ({ part, of, q })),
    clearance,
    entries: [...new Set(parts.flatMap(({ entries }) => entries))],
  };
}

/** New parts that this place could be made to: the one fitted there, wherever it was measured, then those measured for it. */
function newPartsAt(book: Book, of: Characteristic, place: Place): Part[] {
  const isNew = (part: Part | undefined): part is Part => part?.current.condition === 'new';
  const measured = [...book.parts.values()].filter(
    (part) =>
      isNew(part) &&
      book.readings.some(
        ({ body, standing }) =>
          standing === 'counts' &&
          body.characteristic === of.id &&
          body.state === part.current.id &&
          isAt(body.place ?? {}, place),
      ),
  );
  const fitted = book.parts.get(book.positions.get(positionAt(of.position!, place))?.now?.part ?? '');
  return [...(isNew(fitted) ? [fitted] : []), ...measured];
}

function termsOf(
  book: Book,
  relation: Relation | undefined,
): { readonly terms: Term[]; readonly constant: number } | undefined {
  if (relation === undefined || typeof relation === 'string' || !('linear' in relation)) return undefined;
  const terms = relation.linear.terms.map(({ factor, of }) => {
    const named = typeof of === 'string' ? book.characteristics.get(of) : undefined;
    return named && named.kind !== 'seen' ? { factor, of: named } : undefined;
  });
  if (terms.some((term) => term === undefined)) return undefined;
  const kind = terms[0]!.of.kind;
  const said = relation.linear.constant;
  const constant = said === undefined || kind === 'seen' ? undefined : parseQuantity(said, kind);
  if (constant && !constant.ok) return undefined;
  return { terms: terms.map((term) => term!), constant: constant?.value.value ?? 0 };
}

const isAtPosition = (book: Book, { position: pattern, places, only }: Characteristic, position: string) =>
  pattern !== undefined &&
  placesOf(book.sheet ?? { axes: {} }, {
    places: axesIn(pattern).filter((a) => places.includes(a)),
    only,
  }).some((place) => positionAt(pattern, place) === position);
