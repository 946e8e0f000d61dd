import {
  type Assessed,
  type Characteristic,
  limitsOf,
  type Member,
  type Place,
  placesOf,
} from '@fettle/book';
import { inUnit } from '@fettle/core';
import { type MapCell, type Picture, type TintStep, type UnrolledMap, unrolledBoresSvg } from '@fettle/draw';
import { useCallback } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { assessed, book } from '../../state/job.ts';
import { keyOf } from '../../state/steps.ts';
import { unitOf } from '../../state/units.ts';
import { bare, shown } from '../../words/quantity.ts';

/** Units whose sign does not read well in a sentence. */
const LONG_NAMES: Readonly<Record<string, string>> = { in: 'inches', thou: 'thousandths of an inch' };

/** Greys by which a map is tinted. */
const TINTS = [1, 2, 3, 4, 5];

/** The size meant for a new part, where the limits for new parts say one: their target, or their middle. */
function meantSize(characteristic: Characteristic, size: string | undefined): number | undefined {
  const { lower, upper, target } = limitsOf(characteristic, 'new', size) ?? {};
  if (target !== undefined) return target;
  return lower !== undefined && upper !== undefined ? (lower + upper) / 2 : undefined;
}

interface Found {
  readonly member: Member;
  readonly judgement: Assessed;
  readonly value: number;
}

function foundPlaces(judgements: readonly Assessed[]): Map<string, Found> {
  const found = new Map<string, Found>();
  for (const judgement of judgements)
    for (const member of judgement.members) {
      const { operand } = member.known;
      if (operand.kind === 'value')
        found.set(keyOf('', member.place), { member, judgement, value: operand.q.value });
    }
  return found;
}

/** What there is to draw of a characteristic with three axes; undefined until two places of it are known. */
function mapOf(
  characteristic: Characteristic,
): { readonly map: UnrolledMap; readonly words: string } | undefined {
  const [strip, row, column] = characteristic.places;
  const judgements = assessed.value.judgements.filter((one) => one.characteristic.id === characteristic.id);
  const found = foundPlaces(judgements);
  if (strip === undefined || row === undefined || column === undefined || found.size < 2) return undefined;
  const unit = unitOf(characteristic);
  const states = judgements.flatMap((one) => one.states);
  const meant = meantSize(characteristic, states.find(({ size }) => size !== undefined)?.size);
  const off = ({ value }: Found): number => (meant === undefined ? 0 : Math.abs(value - meant));
  const farthest = Math.max(...[...found.values()].map(off));
  const isTinted = meant !== undefined && unit !== undefined && farthest > 0;
  const steps: TintStep[] = isTinted
    ? TINTS.map((k) => ({
        upTo: inUnit((farthest * k) / TINTS.length, unit) * (1 + 1e-9),
        text: (k === TINTS.length ? shown : bare)(characteristic, (farthest * k) / TINTS.length),
      }))
    : [];
  const cellAt = (place: Place): MapCell | undefined => {
    const at = found.get(keyOf('', place));
    if (!at) return undefined;
    const { member, judgement } = at;
    const verdict = judgement.governing && member.verdicts[judgement.governing]?.verdict;
    return {
      text: bare(characteristic, at.value),
      ...(isTinted && { deviation: inUnit(off(at), unit) }),
      ...(verdict && { verdict }),
      worst: judgement.worstAt !== undefined && keyOf('', judgement.worstAt) === keyOf('', place),
    };
  };
  const places = placesOf(book.value.sheet ?? { axes: {} }, characteristic);
  const valuesOf = (axis: string): string[] => [...new Set(places.map((place) => place[axis] ?? ''))];
  const head = (axis: string, value: string): string => (axis === 'turn' ? `${value}°` : value);
  const [rows, columns] = [valuesOf(row), valuesOf(column)];
  return {
    map: {
      rows: rows.map((value) => head(row, value)),
      columns: columns.map((value) => head(column, value)),
      strips: valuesOf(strip).map((value) => ({
        name: `${strip} ${value}`,
        cells: rows.map((r) => columns.map((c) => cellAt({ [strip]: value, [row]: r, [column]: c }))),
      })),
      steps,
      worst: 'the place that decides',
    },
    words: [
      unit === undefined ? '' : `In ${LONG_NAMES[unit] ?? unit}.`,
      isTinted
        ? `Tinted by how far each place is from ${shown(characteristic, meant)}, the size meant for a new part.`
        : '',
    ]
      .join(' ')
      .trim(),
  };
}

/** Every bore or journal cut open and laid flat, with what each place of it reads. */
export function BoreMap({ characteristic }: { readonly characteristic: Characteristic }) {
  const drawn = mapOf(characteristic);
  const map = drawn?.map;
  const draw = useCallback((picture: Picture) => (map ? unrolledBoresSvg(map, picture) : ''), [map]);
  if (!drawn) return null;
  const [strip, row, column] = characteristic.places;
  return (
    <section class="bore-map">
      <h2>Every {strip}, unrolled</h2>
      <Drawing
        title={`${characteristic.name}, unrolled`}
        desc={`What was found at each ${row} and ${column} of every ${strip}. A place struck through is not read yet.`}
        draw={draw}
        widest={900}
      />
      {drawn.words === '' ? null : <p class="soft">{drawn.words}</p>}
    </section>
  );
}
