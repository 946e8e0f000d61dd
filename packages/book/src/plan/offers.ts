import { failed, type Issue, type Outcome, ok, parseQuantity } from '@fettle/core';
import { coveredIssues } from '../basket/covered-issues.ts';
import type { Book } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';
import { axisValues } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { timeIssues } from '../timeline/three-point.ts';
import { circuitInlets } from './circuit-inlets.ts';
import { daysOf } from './lead-time.ts';

export type OfferBody = Body<'repair-offered'>;
export type Restored = OfferBody['restores'][number];

/** An offer that can be reckoned with. */
export interface Offer {
  readonly id: string;
  readonly body: OfferBody;
  /** Its own lead time; 0 where none was said. */
  readonly days: number;
  readonly entry: string;
}

const issue = (code: string, at: string, got: string, wanted: string, message: string): Issue => ({
  code: `offer/${code}`,
  at,
  got,
  wanted,
  message,
});

/** Whether an offer can be understood beside the sheet adopted; what it names of other offers may come later. */
export function admittedOffer(book: Book, body: OfferBody): Outcome<OfferBody> {
  const issues = [
    ...timeIssues(
      { likely: body.lead_time, soonest: body.soonest, latest: body.latest },
      { likely: 'lead_time', soonest: 'soonest', latest: 'latest' },
    ).map((one) => (one.code === 'time/unreadable' ? { ...one, code: 'offer/unreadable-time' } : one)),
    ...coveredIssues(book, body.covers ?? []),
    ...selfIssues(body),
    ...body.restores.flatMap((one) => restoredIssues(book, one)),
    ...body.repairs.flatMap((one) => repairIssues(book, one)),
    ...gradeIssues(book, body.oil),
  ];
  return issues.length > 0 ? failed(...issues) : ok(body);
}

function selfIssues({ offer, needs, excludes }: OfferBody): Issue[] {
  const both = needs.filter((id) => excludes.includes(id));
  const wrong = [...new Set([...[...needs, ...excludes].filter((id) => id === offer), ...both])];
  return wrong.map((id) =>
    issue(
      'contradicts-itself',
      id === offer ? 'needs, excludes' : 'needs',
      id,
      'other offers, each needed or excluded',
      `${offer} cannot need or exclude itself, nor both need and exclude "${id}". Leave one of them out.`,
    ),
  );
}

function restoredIssues(book: Book, one: Restored): Issue[] {
  const characteristic = book.characteristics.get(one.characteristic);
  if (!characteristic)
    return [
      issue(
        'unknown-characteristic',
        'restores',
        one.characteristic,
        'a characteristic of the spec sheet',
        `The spec sheet has no "${one.characteristic}". "fettle check JOB --json" lists what there is.`,
      ),
    ];
  return [
    ...placeIssues(book, characteristic, one.at ?? {}),
    ...quantityIssues(characteristic, 'value', one.value),
    ...quantityIssues(characteristic, 'doubt', one.doubt),
    ...(one.doubt !== undefined && one.value === undefined
      ? [
          issue(
            'doubt-without-value',
            one.characteristic,
            one.doubt,
            'the value that it is the doubt of',
            `A doubt of ${one.doubt} needs the value it belongs to. Say what ${characteristic.name} will be.`,
          ),
        ]
      : []),
    ...sizeIssues(characteristic, one.size),
  ];
}

function placeIssues(
  book: Book,
  characteristic: Characteristic,
  at: Readonly<Record<string, string>>,
): Issue[] {
  return Object.entries(at).flatMap(([axis, value]) => {
    const values =
      book.sheet && characteristic.places.includes(axis) ? axisValues(book.sheet, characteristic, axis) : [];
    if (values.includes(value)) return [];
    return [
      issue(
        'unknown-place',
        characteristic.id,
        `${axis} ${value}`,
        values.length > 0
          ? `${axis} ${values.join(', ')}`
          : `one of ${characteristic.places.join(', ') || 'no axes'}`,
        `${characteristic.name} has no place "${axis} ${value}". Correct the place of what is restored.`,
      ),
    ];
  });
}

function quantityIssues(characteristic: Characteristic, at: string, text: string | undefined): Issue[] {
  if (text === undefined) return [];
  if (characteristic.kind === 'seen')
    return [
      issue(
        'seen-has-no-value',
        characteristic.id,
        text,
        'no value',
        `${characteristic.name} is looked at, not measured. Leave the ${at} out.`,
      ),
    ];
  const read = parseQuantity(text, characteristic.kind);
  if (!read.ok) return read.issues.map((one) => ({ ...one, at: `${characteristic.id}, ${at}` }));
  if (at !== 'doubt' || read.value.value > 0) return [];
  return [
    issue(
      'doubt-not-over-zero',
      characteristic.id,
      text,
      'a doubt over 0',
      `A doubt of ${text} is none. Give the half-width at about 95 %, or leave it out.`,
    ),
  ];
}

function sizeIssues(characteristic: Characteristic, size: string | undefined): Issue[] {
  const sizes = characteristic.sizes ?? [];
  if (size === undefined || sizes.some(({ name }) => name === size)) return [];
  return [
    issue(
      'unknown-size',
      characteristic.id,
      size,
      sizes.map(({ name }) => name).join(', ') || 'no sizes',
      `${characteristic.name} has no size "${size}" on the sheet.`,
    ),
  ];
}

/** Repairs of the circuit by name, with the characteristics that feed them. */
function circuitRepairs(book: Book): ReadonlyMap<string, readonly Characteristic[]> {
  const repairs = new Map<string, Characteristic[]>();
  for (const { from } of circuitInlets(book.sheet)) {
    const characteristic = book.characteristics.get(from.from);
    if (!characteristic) continue;
    const name = from.repair ?? characteristic.name;
    repairs.set(name, [...new Set([...(repairs.get(name) ?? []), characteristic])]);
  }
  return repairs;
}

function repairIssues(book: Book, one: OfferBody['repairs'][number]): Issue[] {
  const repairs = circuitRepairs(book);
  const fed = repairs.get(one.repair);
  if (!fed)
    return [
      issue(
        'unknown-repair',
        'repairs',
        one.repair,
        [...repairs.keys()].join(', ') || 'no repairs: the sheet has no oil circuit',
        `The oil circuit knows no repair "${one.repair}". Take ${[...repairs.keys()].join(', ') || 'none'}.`,
      ),
    ];
  if (one.value !== undefined && fed.length > 1)
    return [
      issue(
        'value-of-several',
        one.repair,
        one.value,
        'no value, or each characteristic under restores',
        `${one.repair} covers ${fed.map(({ name }) => name).join(', ')}: one value cannot be for all. Say each under restores.`,
      ),
    ];
  return [...quantityIssues(fed[0]!, 'value', one.value), ...quantityIssues(fed[0]!, 'doubt', one.doubt)];
}

function gradeIssues(book: Book, grade: string | undefined): Issue[] {
  const grades = Object.keys(book.sheet?.oil?.grades ?? {});
  if (grade === undefined || grades.includes(grade)) return [];
  return [
    issue(
      'unknown-grade',
      'oil',
      grade,
      grades.join(', ') || 'no grades',
      `The spec sheet has no oil "${grade}". Take ${grades.join(' or ') || 'none'}.`,
    ),
  ];
}

/** The offers that can be reckoned with, and why the others cannot. */
export function offersOf(book: Book): {
  offers: Offer[];
  refused: { offer: OfferBody; issues: readonly Issue[] }[];
} {
  const offers: Offer[] = [];
  const refused: { offer: OfferBody; issues: readonly Issue[] }[] = [];
  for (const { entry, body } of book.offers.values()) {
    const admitted = admittedOffer(book, body);
    if (!admitted.ok) refused.push({ offer: body, issues: admitted.issues });
    else
      offers.push({
        id: body.offer,
        body,
        days: body.lead_time === undefined ? 0 : (daysOf(body.lead_time) ?? 0),
        entry: entry.id,
      });
  }
  return { offers, refused };
}
