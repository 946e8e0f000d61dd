import { expect, it } from 'vitest';
import { oiledBench, oiledSheet, reckoningOf } from '../testing/oiled-sheet.ts';
import { circuitCautionWords } from '../words/circuit-cautions.ts';
import { filledCircuit } from './circuit.ts';
import { cautionsOver } from './circuit-cautions.ts';

const RPM = Math.PI / 30;
const HOT = 273.15 + 93;
const COLD = 273.15 + 20;

interface Element {
  readonly id: string;
  readonly [key: string]: unknown;
}

/** The invented engine with its mains solved over their length: one runs fast under next to no load, one hardly turns. */
function withFilms() {
  const sheet = oiledSheet() as { oil: { circuit: { elements: Element[] } } };
  const { circuit } = sheet.oil;
  circuit.elements = circuit.elements.map((element) =>
    element.id.startsWith('main')
      ? {
          id: element.id,
          law: 'film-bearing',
          from: element.from,
          to: element.to,
          diameter: '2.5 in',
          length: '1.4 in',
          supply: 'full-groove',
          groove_width: '0.2 in',
          radial_clearance: element.radial_clearance,
          film_rise: '12 K',
          ...(element.id === 'main-1' ? { load: '5 N' } : { load: '2 N', speed_ratio: 0.01 }),
        }
      : element,
  );
  const bench = oiledBench({ measured: true, sheet: sheet as never });
  const book = bench.book();
  const circuitFilled = filledCircuit(book, reckoningOf(book));
  if (!circuitFilled.ok) throw new Error(JSON.stringify(circuitFilled.issues));
  return circuitFilled.value;
}

it('says of each bearing that lies beyond its table which it is, what came, what the table spans and when', () => {
  // A journal that hardly turns has little of its own to measure the supply by: p* = p c²/(μ ω R²).
  const running = [2000, 300].map((rpm) => ({ speed: rpm * RPM, temperature: HOT }));
  const found = cautionsOver(withFilms(), running).filter(({ code }) => code === 'network/outside-table');
  expect(found.map(({ about, at, of }) => [about, at.length, of])).toEqual([
    ['main-1', 1, 2],
    ['main-2', 2, 2],
  ]);
  const [fast, slow] = found.map(circuitCautionWords);
  expect(fast).toMatch(
    /^At 93 °C and 2000 rpm: main-1: its film is loaded more lightly \(Sommerfeld number \d+\) than films were solved for/,
  );
  expect(slow).toMatch(/^main-2: its film is fed at a pressure of p\* = [\d.]+ .* solved from 0\.003 to 8;/);
});

it('names jets through which the oil is too thick for a constant coefficient, cold and not hot', () => {
  const bench = oiledBench({ measured: true });
  const book = bench.book();
  const circuit = filledCircuit(book, reckoningOf(book));
  if (!circuit.ok) throw new Error(JSON.stringify(circuit.issues));
  const at = (temperature: number) => cautionsOver(circuit.value, [{ speed: 600 * RPM, temperature }]);
  expect(at(HOT)).toEqual([]);
  expect(at(COLD - 15)).toMatchObject([{ code: 'network/thick-jet' }]);
  expect(at(COLD - 15)[0]!.message).toMatch(/^Through jet the oil goes at a Reynolds number of \d+\./);
});
