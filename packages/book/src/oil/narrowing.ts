import { linear, type Outcome, ok, parseQuantity, standardUncertainty, type Uncertain } from '@fettle/core';
import { readingsAt, takesTheSame } from '../assess/finer-input.ts';
import { standardUncertaintyOf } from '../assess/instrument.ts';
import { Reckoning } from '../assess/reckoning.ts';
import type { Catalogue } from '../assess/relations.ts';
import type { Book, ReadingOnRecord, Written } from '../fold/book.ts';
import type { Place } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { leafAnswerWords } from '../words/leaves.ts';
import { type FilledCircuit, filledCircuit } from './circuit.ts';
import { type DoubtCause, doubtCauses } from './doubt-causes.ts';
import { gaugeAt } from './gauge-at.ts';
import type { Running } from './pressure.ts';

/** Readings of one characteristic with one instrument, and what the band would be if they were better. */
interface BetterReading {
  readonly characteristic: Characteristic;
  readonly instrument: string;
  readonly instrumentName: string;
  readonly readings: readonly { readonly entry: string; readonly place: Place; readonly said: string }[];
  /** Standard uncertainty of the pressure, were these readings without error [Pa]: the most that better ones can do. */
  readonly without: number;
  /** Share of the variance that would go with their errors. They share an instrument, so these do not add to 1. */
  readonly share: number;
  /** The finest instrument owned that takes the same, if finer than the one used, and what is left with it [Pa]. */
  readonly finest?: { readonly instrument: string; readonly name: string; readonly left: number };
}

export interface Narrowing {
  /** At the gauge, as measured [Pa]. */
  readonly pressure: Uncertain;
  readonly causes: readonly DoubtCause[];
  /** The one that would narrow most comes first. */
  readonly readings: readonly BetterReading[];
  /** Characteristics that stand at their nominal value and carry no band at all: measuring them may move the figure. */
  readonly unmeasured: readonly Characteristic[];
}

/** A reading without error still is one: its instrument is taken a thousand times as fine. */
const EXACT = 1e-3;

/**
 * Which readings, taken better, would narrow the band of a predicted pressure most. The readings are thought to have
 * said the same with a finer instrument, and everything that rests on them is reckoned again: common errors of an
 * instrument, pooled witnesses and leaves that cut a number all keep their part. The gauge's slopes are those at the
 * figures as measured.
 */
export function narrowing(
  reckoning: Reckoning,
  catalogue: Catalogue,
  running: Running,
  grade?: string,
): Outcome<Narrowing> {
  const { book, selection } = reckoning;
  const circuit = filledCircuit(book, reckoning, grade);
  if (!circuit.ok) return circuit;
  const { slopes, value } = gaugeSlopes(circuit.value, running);
  const pressureOf = ({ parameters }: FilledCircuit, without: (name: string) => boolean): Uncertain => {
    const { terms } = linear(
      parameters.flatMap(({ name, measured }, i) => {
        if (!measured) return [];
        const of = without(name)
          ? { ...measured, terms: measured.terms.filter(({ source }) => !source.startsWith('bracket')) }
          : measured;
        return [{ factor: slopes[i]!, of }];
      }),
    );
    return { value, terms };
  };
  const pressure = pressureOf(circuit.value, () => false);
  const u = standardUncertainty(pressure);
  /** Standard uncertainty with some readings taken by another instrument. */
  const leftWith = (
    readings: readonly ReadingOnRecord[],
    other: Written<'instrument-declared'>,
    without: (name: string) => boolean = () => false,
  ): number => {
    const thought = withInstrument(book, readings, other);
    const filled = filledCircuit(thought, new Reckoning(thought, selection, catalogue), grade);
    return filled.ok ? standardUncertainty(pressureOf(filled.value, without)) : u;
  };
  const { parameters } = circuit.value;
  const all = readingsAt(reckoning, [...new Set(parameters.flatMap(({ entries }) => entries))]);
  const readings = grouped(all).flatMap((group): BetterReading[] => {
    const [first] = group;
    const used = first && book.instruments.get(first.body.instrument);
    if (!first || !used) return [];
    const entries = new Set(group.map(({ entry }) => entry.id));
    const bounded = new Set(
      first.body.value === undefined
        ? parameters.filter((one) => one.entries.some((id) => entries.has(id))).map(({ name }) => name)
        : [],
    );
    const without = leftWith(group, exactly(used), (name) => bounded.has(name));
    const finest = finestOwned(book, first, used);
    return [
      {
        characteristic: reckoning.characteristic(first.body.characteristic),
        instrument: first.body.instrument,
        instrumentName: used.body.name,
        readings: group.map(({ entry, body }) => ({
          entry: entry.id,
          place: body.place ?? {},
          said: body.value ?? leafAnswerWords(body),
        })),
        without,
        share: u > 0 ? 1 - (without / u) ** 2 : 0,
        ...(finest && {
          finest: {
            instrument: finest.body.instrument,
            name: finest.body.name,
            left: leftWith(group, finest),
          },
        }),
      },
    ];
  });
  return ok({
    pressure,
    causes: doubtCauses(book, pressure),
    readings: readings.sort((a, b) => a.without - b.without),
    unmeasured: [
      ...new Set(parameters.filter(({ measured }) => !measured).map(({ characteristic }) => characteristic)),
    ],
  });
}

/** @throws RangeError  when the network finds no balance */
function gaugeSlopes(circuit: FilledCircuit, running: Running): { value: number; slopes: number[] } {
  const gauge = gaugeAt(circuit)(running);
  const at = circuit.parameters.map(({ measured, nominal }) => measured?.value ?? nominal);
  const value = gauge(at);
  const slopes = circuit.parameters.map(({ measured }, i) => {
    const u = measured ? standardUncertainty(measured) : 0;
    if (u === 0) return 0;
    const moved = (by: number): number => gauge(at.map((x, j) => (i === j ? x + by : x)));
    return (moved(u) - moved(-u)) / (2 * u);
  });
  return { value, slopes };
}

/** Those of one characteristic, taken the same way with the same instrument. */
function grouped(readings: readonly ReadingOnRecord[]): ReadingOnRecord[][] {
  const groups = new Map<string, ReadingOnRecord[]>();
  for (const reading of readings) {
    const { characteristic, instrument, value } = reading.body;
    const key = `${characteristic}\n${instrument}\n${value === undefined}`;
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  return [...groups.values()];
}

/** An instrument like another, a thousand times as fine. */
function exactly({ entry, body }: Written<'instrument-declared'>): Written<'instrument-declared'> {
  const { expanded, ...rest } = body.uncertainty;
  return {
    entry,
    body: {
      ...body,
      instrument: `${body.instrument}, without error`,
      uncertainty: { ...rest, expanded, coverage: rest.coverage / EXACT },
    },
  };
}

/** The book as it would be had some readings been taken with another instrument, and said the same. */
function withInstrument(
  book: Book,
  readings: readonly ReadingOnRecord[],
  instrument: Written<'instrument-declared'>,
): Book {
  const { instrument: id } = instrument.body;
  const taken = new Set(readings);
  return {
    ...book,
    instruments: new Map([...book.instruments, [id, instrument]]),
    readings: book.readings.map((one) =>
      taken.has(one) ? { ...one, body: { ...one.body, instrument: id } } : one,
    ),
  };
}

function finestOwned(
  book: Book,
  { body }: ReadingOnRecord,
  used: Written<'instrument-declared'>,
): Written<'instrument-declared'> | undefined {
  const kind = book.characteristics.get(body.characteristic)?.kind;
  if (body.value === undefined || kind === undefined || kind === 'seen') return undefined;
  const said = parseQuantity(body.value, kind);
  if (!said.ok) return undefined;
  const uOf = (one: Written<'instrument-declared'>): number =>
    standardUncertaintyOf(one, kind, said.value.value) ?? Number.POSITIVE_INFINITY;
  const [finest] = [...book.instruments.values()]
    .filter((one) => takesTheSame(used.body.type, one.body.type))
    .sort((a, b) => uOf(a) - uOf(b));
  return finest && uOf(finest) < uOf(used) ? finest : undefined;
}
