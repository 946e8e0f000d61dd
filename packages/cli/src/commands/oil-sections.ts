import {
  type Book,
  circuitFlows,
  type FilledCircuit,
  narrowing,
  type Reckoning,
  repairsOf,
} from '@fettle/book';
import { CATALOGUE, failed, type Outcome, ok } from '@fettle/core';
import { circuitJson, circuitLines } from '../words/circuit-lines.ts';
import { narrowingJson, narrowingLines } from '../words/narrowing-lines.ts';
import type { Condition } from '../words/oil-lines.ts';
import { mapJson, mapLines, measuredMap, printedGrid } from '../words/pressure-map-lines.ts';
import { stairJson, stairLines, stairSection } from '../words/stair-lines.ts';

/** What more of the oil system was asked for. */
export interface WantedSections {
  readonly stair?: boolean;
  readonly lift?: readonly string[];
  readonly map?: boolean;
  readonly narrow?: boolean;
  readonly flows?: boolean;
}

interface Section {
  readonly key: 'stair' | 'map' | 'narrowing' | 'circuit';
  readonly lines: readonly string[];
  readonly json: unknown;
}

interface Grounds {
  readonly book: Book;
  readonly reckoning: Reckoning;
  readonly circuit: FilledCircuit;
  /** Those asked for; the stair, the flows and the band are of the first. */
  readonly conditions: readonly Condition[];
  /** Whether the person said speeds or temperatures. */
  readonly said: boolean;
  readonly grade: string | undefined;
  readonly seed: number;
}

/** @throws RangeError  when the network finds no balance */
export function oilSections(wanted: WantedSections, grounds: Grounds): Outcome<Section[]> {
  const { book, reckoning, circuit, conditions, grade, seed } = grounds;
  const [first] = conditions;
  const sections: Section[] = [];
  if (!first) return ok(sections);
  if (wanted.stair || wanted.lift) {
    const lifted = repairsNamed(circuit, wanted.lift ?? []);
    if (!lifted.ok) return lifted;
    const section = stairSection(circuit, first, lifted.value, seed);
    sections.push({ key: 'stair', lines: stairLines(book, circuit, section), json: stairJson(section) });
  }
  if (wanted.map) {
    const map = measuredMap(circuit, gridOf(grounds));
    sections.push({ key: 'map', lines: mapLines(book, map), json: mapJson(map) });
  }
  if (wanted.narrow) {
    const found = narrowing(reckoning, CATALOGUE, first, grade);
    if (!found.ok) return found;
    sections.push({
      key: 'narrowing',
      lines: narrowingLines(book, first, found.value),
      json: narrowingJson(first, found.value),
    });
  }
  if (wanted.flows) {
    const flows = circuitFlows(circuit, first, { as: 'measured' });
    sections.push({
      key: 'circuit',
      lines: circuitLines(book, first, flows),
      json: circuitJson(first, flows),
    });
  }
  return ok(sections);
}

const distinct = (values: readonly number[]): number[] => [...new Set(values)];

function gridOf({ book, conditions, said }: Grounds) {
  const own = {
    speeds: distinct(conditions.map(({ speed }) => speed)),
    temperatures: distinct(conditions.map(({ temperature }) => temperature)),
  };
  return said ? own : (printedGrid(book) ?? own);
}

/** Repairs by their names or any part of one that belongs to no other. */
function repairsNamed(circuit: FilledCircuit, names: readonly string[]): Outcome<string[]> {
  const known = repairsOf(circuit);
  const found: string[] = [];
  for (const name of names) {
    const wanted = name.trim().toLowerCase();
    const exact = known.filter((repair) => repair.toLowerCase() === wanted);
    const fits =
      exact.length > 0 || wanted === ''
        ? exact
        : known.filter((repair) => repair.toLowerCase().includes(wanted));
    if (fits.length !== 1)
      return failed({
        code: 'oil/unknown-repair',
        at: '--lift',
        got: name,
        wanted: known.join('; '),
        message: `${fits.length > 1 ? `"${name}" could be ${fits.join(' or ')}` : `The circuit has no repair "${name}"`}. Name one of: ${known.join('; ')}.`,
      });
    found.push(fits[0]!);
  }
  return ok([...new Set(found)]);
}
