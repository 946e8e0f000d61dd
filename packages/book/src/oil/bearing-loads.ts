import {
  BIG_END_SHARE,
  type CycleVector,
  centredCrank,
  crankpinLoad,
  cylinderPressure,
  diagramWork,
  failed,
  kilogram,
  loadSize,
  MASS_OVER_AREA,
  mainLoad,
  metre,
  type Outcome,
  ok,
  parseQuantity,
  pascal,
  pistonArea,
  type QuantityKind,
  radian,
  radianPerSecond,
  rodMeanTurning,
  type SliderCrank,
  TYPICAL_CYCLE,
} from '@fettle/core';
import { siOf } from '../assess/limits.ts';
import type { Reckoning } from '../assess/reckoning.ts';
import type { Book } from '../fold/book.ts';
import { CRANK_FIGURES, type CrankFigureName, fixedFor } from '../sheet/crank-faults.ts';
import type { CrankSheet } from '../sheet/sheet.ts';
import { measuredOf } from './circuit.ts';

/** Points of one cycle: a degree of the crank apart. */
export const CYCLE_POINTS = 720;

/** One figure that a load rests on, and where it comes from. */
export interface LoadFigure {
  readonly figure: CrankFigureName;
  /** In SI. */
  readonly value: number;
  readonly kind: QuantityKind;
  /** assumed: neither measured nor on the sheet, so something stands in. */
  readonly from: 'measured' | 'sheet' | 'assumed';
  /** What stands in, in words, or how far the sheet's figure is trusted. */
  readonly basis?: string;
  readonly entries: readonly string[];
}

interface CylinderFigures {
  readonly name: string;
  readonly fires: number;
  readonly boreDirection: number;
  readonly rod: string;
  readonly mains: readonly string[];
  readonly figures: Readonly<Record<CrankFigureName, LoadFigure>>;
}

/** The crank of a job with every figure its loads need. */
export interface FilledCrank {
  readonly cylinders: readonly CylinderFigures[];
}

/** What stands in for a figure that nobody gave. */
function standIn(figure: CrankFigureName, value: (other: CrankFigureName) => number): [number, string] {
  const area = pistonArea(metre(value('bore')));
  const byArea = ({ low, middle, high }: { low: number; middle: number; high: number }, what: string) =>
    [middle * area, `${middle} kg for each m² of piston, the middle of ${low} to ${high} for ${what}`] as [
      number,
      string,
    ];
  switch (figure) {
    case 'piston_mass':
      return byArea(MASS_OVER_AREA.piston, 'aluminium pistons with rings and pin');
    case 'rod_mass':
      return byArea(MASS_OVER_AREA.rod, 'whole rods');
    case 'rod_big_end_mass':
      return [
        BIG_END_SHARE * value('rod_mass'),
        `${BIG_END_SHARE} of the rod’s mass, the middle of 0.7 to 0.8`,
      ];
    case 'throw_mass':
      return [0, 'each throw is taken as balanced by its own weights: loads of the mains only'];
    case 'inlet_shuts':
      return [TYPICAL_CYCLE.inletShuts, 'typical of an old engine'];
    case 'exhaust_opens':
      return [TYPICAL_CYCLE.exhaustOpens, 'typical of an old engine'];
    default:
      return [Number.NaN, ''];
  }
}

/** The crank of the spec sheet with what was measured put in, and with what stands in where nothing is known. */
export function filledCrank(book: Book, reckoning: Reckoning): Outcome<FilledCrank> {
  const crank = book.sheet?.crank;
  if (!crank)
    return failed({
      code: 'film/no-crank',
      at: '/crank',
      got: 'a spec sheet that does not describe the crank',
      wanted: 'bore, stroke, rod, compression ratio, and which bearings stand beside which throw',
      message:
        'The loads of the bearings cannot be reckoned: the spec sheet does not describe the crank. Add "crank" to it.',
    });
  const cylinders: CylinderFigures[] = [];
  for (const cylinder of crank.cylinders) {
    const figures = figuresOf(book, reckoning, crank, cylinder.at);
    const fault = impossible(cylinder.name, figures);
    if (fault) return failed(fault);
    const angle = (text: string): number => {
      const read = parseQuantity(text, 'angle');
      return read.ok ? read.value.value : Number.NaN;
    };
    cylinders.push({
      name: cylinder.name,
      fires: angle(cylinder.fires),
      boreDirection: angle(cylinder.bore_direction),
      rod: cylinder.rod,
      mains: cylinder.mains,
      figures,
    });
  }
  return ok({ cylinders });
}

function figuresOf(
  book: Book,
  reckoning: Reckoning,
  crank: CrankSheet,
  at: Readonly<Record<string, string>>,
): Record<CrankFigureName, LoadFigure> {
  const found = {} as Record<CrankFigureName, LoadFigure>;
  const value = (other: CrankFigureName): number => found[other].value;
  // In the order of the list: what stands in for a later one may rest on an earlier one.
  for (const figure of Object.keys(CRANK_FIGURES) as CrankFigureName[]) {
    const kind = CRANK_FIGURES[figure];
    const known = knownFigure(book, reckoning, crank, figure, at);
    const [stands, basis] = known ? [0, ''] : standIn(figure, value);
    found[figure] = known ?? { figure, value: stands, kind, from: 'assumed', basis, entries: [] };
  }
  return found;
}

function knownFigure(
  book: Book,
  reckoning: Reckoning,
  crank: CrankSheet,
  figure: CrankFigureName,
  at: Readonly<Record<string, string>>,
): LoadFigure | undefined {
  const kind = CRANK_FIGURES[figure];
  const said = crank[figure];
  if (said === undefined) return undefined;
  if (typeof said === 'string') {
    const read = parseQuantity(said, kind);
    return read.ok ? { figure, value: read.value.value, kind, from: 'sheet', entries: [] } : undefined;
  }
  const characteristic = book.characteristics.get(said.from);
  if (!characteristic) return undefined;
  const { measured, entries } = measuredOf(reckoning, characteristic, {
    ...said,
    at: { ...fixedFor(at, characteristic), ...said.at },
  });
  if (measured) return { figure, value: measured.value, kind, from: 'measured', entries };
  const nominal = said.nominal === undefined ? undefined : siOf(said.nominal, characteristic);
  return nominal === undefined
    ? undefined
    : { figure, value: nominal, kind, from: 'sheet', basis: said.trust, entries: [] };
}

/** Figures that no crank can have; a reading may bring what the sheet would never say. */
function impossible(name: string, figures: Readonly<Record<CrankFigureName, LoadFigure>>) {
  const { bore, stroke, rod, compression_ratio: ratio, rod_mass: whole, rod_big_end_mass: big } = figures;
  const { inlet_shuts: shuts, exhaust_opens: opens, piston_mass: piston } = figures;
  const angles = [shuts.value, opens.value].every((angle) => angle >= 0 && angle < Math.PI / 2);
  const sized = [bore, stroke, rod, piston, whole, big].every(({ value }) => value > 0);
  if (sized && angles && rod.value > stroke.value / 2 && ratio.value > 1 && big.value < whole.value)
    return undefined;
  return {
    code: 'film/impossible-crank',
    at: '/crank',
    got: `cylinder ${name}: bore ${bore.value} m, stroke ${stroke.value} m, rod ${rod.value} m, ratio ${ratio.value}, rod ${whole.value} kg of which ${big.value} kg at the big end`,
    wanted: 'a rod over half the stroke, a ratio over 1, a big end lighter than its rod, valves that close',
    message: `The figures of cylinder ${name} cannot be those of an engine, so its bearings have no load. Correct the reading or the sheet.`,
  };
}

/** How hard the engine works. */
export interface Working {
  /** Of the crank [rad/s] */
  readonly speed: number;
  /** Pressure of the charge over the air outside: 1 with the throttle open. */
  readonly load: number;
}

/** The load of one bearing over a cycle, on the journal. */
export interface BearingLoad {
  readonly element: string;
  readonly bearing: 'rod' | 'main';
  /** In the engine's frame, x along the first bore towards the head; for a rod its own bore's [N]. */
  readonly load: CycleVector;
  /** Mean of the speeds of journal and shell [rad/s] */
  readonly meanTurning: Float64Array;
  readonly mean: number;
  readonly greatest: number;
  /** Crank angle of the greatest [rad]: for a rod after its own firing top dead centre, for a main after the first one's. */
  readonly greatestAt: number;
  readonly crank: SliderCrank;
}

export interface BearingLoads extends Working {
  /** Over the air outside [Pa] */
  readonly peakPressure: number;
  /** Work of the gas over the swept volume [Pa] */
  readonly meanPressure: number;
  readonly bearings: readonly BearingLoad[];
}

/** Loads of all big ends and mains over one cycle. */
export function bearingLoads({ cylinders }: FilledCrank, { speed, load }: Working): BearingLoads {
  const turning = radianPerSecond(speed);
  const onMains = new Map<string, Parameters<typeof mainLoad>[0][number][]>();
  const bearings: BearingLoad[] = [];
  let peakPressure = 0;
  let meanPressure = 0;
  for (const { figures, fires, boreDirection, rod, mains } of cylinders) {
    const value = (figure: CrankFigureName): number => figures[figure].value;
    const crank = centredCrank(value('stroke'), value('rod'));
    const cycle = {
      crank,
      area: pistonArea(metre(value('bore'))),
      compressionRatio: value('compression_ratio'),
      load,
      fired: true,
      inletShuts: radian(value('inlet_shuts')),
      exhaustOpens: radian(value('exhaust_opens')),
      ambient: pascal(TYPICAL_CYCLE.ambient),
    };
    const pressure = cylinderPressure(cycle, CYCLE_POINTS);
    peakPressure = Math.max(peakPressure, ...pressure);
    meanPressure += diagramWork(cycle, pressure) / (cycle.area * value('stroke') * cylinders.length);
    const bigEnd = value('rod_big_end_mass');
    const onPin = crankpinLoad(
      crank,
      cycle.area,
      {
        reciprocating: kilogram(value('piston_mass') + value('rod_mass') - bigEnd),
        bigEnd: kilogram(bigEnd),
      },
      turning,
      pressure,
    );
    bearings.push(sized('rod', rod, onPin, rodMeanTurning(crank, speed, CYCLE_POINTS), crank));
    for (const main of mains) {
      const beside = onMains.get(main) ?? [];
      beside.push({
        load: onPin,
        fires,
        bore: boreDirection,
        share: 1 / mains.length,
        outwards: value('throw_mass') * speed * speed * crank.crankRadius,
      });
      onMains.set(main, beside);
    }
  }
  const half = new Float64Array(CYCLE_POINTS).fill(speed / 2);
  const { crank } = bearings[0]!;
  for (const [main, beside] of onMains)
    bearings.push(sized('main', main, mainLoad(beside, CYCLE_POINTS), half, crank));
  return { speed, load, peakPressure, meanPressure, bearings };
}

function sized(
  bearing: BearingLoad['bearing'],
  element: string,
  load: CycleVector,
  meanTurning: Float64Array,
  crank: SliderCrank,
): BearingLoad {
  const { mean, greatest, at } = loadSize(load);
  return { element, bearing, load, meanTurning, mean, greatest, greatestAt: at * 4 * Math.PI, crank };
}
