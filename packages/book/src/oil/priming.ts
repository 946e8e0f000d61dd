import {
  ATMOSPHERE,
  airViscosity,
  decisionOn,
  dryInletPressure,
  estimateOf,
  exact,
  failed,
  INLET_DEPRESSION_PRACTICE,
  kelvin,
  kilogramPerCubicMetre,
  type LawName,
  liftOf,
  metre,
  type Outcome,
  ok,
  parseQuantity,
  pascal,
  propagated,
  pumpFigures,
  type QuantityKind,
  radianPerSecond,
  slipGaps,
  speedToLift,
  type Uncertain,
} from '@fettle/core';
import { type Answer, RISK } from '../assess/verdict.ts';
import type { Book } from '../fold/book.ts';
import type { FilledCircuit } from './circuit.ts';
import { oilAt } from './oil-at.ts';

/** Turns of the pump that a hand drill is taken to give where nobody says: a guess, shown as one [rad/s]. */
const HAND_DRILL = radianPerSecond((500 * Math.PI) / 30);

/** One way of turning the pump before the first start. */
export interface PrimingDrive {
  readonly by: 'starter' | 'drill';
  /** Of the pump [rad/s] */
  readonly speed: number;
  /** Lift with air in the gaps [m] */
  readonly dry: Uncertain;
  readonly dryVerdict: Answer;
  /** Lift with the gaps sealed by cold oil, or by a packing that is thicker: no more than dissolved air allows [m] */
  readonly sealed: Uncertain;
  readonly sealedVerdict: Answer;
  /** Time to fill the passages known to the circuit, once oil is at the pump [s] */
  readonly fill: number;
}

/** A gap through which a pump lets back what it sweeps. */
interface PumpGap {
  /** `end clearance` */
  readonly name: string;
  readonly value: Uncertain;
  /** Otherwise taken as new. */
  readonly measured: boolean;
}

export interface Priming {
  /** From the oil's surface to the pump [m] */
  readonly lift: number;
  readonly temperature: number;
  /** Every gap of the pump that the circuit knows. */
  readonly gaps: readonly PumpGap[];
  /** Swept by one turn [m³] */
  readonly displacement: number;
  readonly drives: readonly PrimingDrive[];
  /** Of the pump, from which it would lift oil dry [rad/s]; absent where no speed would. */
  readonly neededSpeed?: Uncertain;
  /** Sealing oil over air: by so much less slips back. */
  readonly sealing: number;
  /** Inside of the circuit's passages [m³] */
  readonly passages: number;
  /** Said on the sheet beside them: filter, gallery, cooler [m³] */
  readonly besides?: number;
}

const quantityOf = (text: string | undefined, kind: QuantityKind): number | undefined => {
  const read = text === undefined ? undefined : parseQuantity(text, kind);
  return read?.ok ? read.value.value : undefined;
};

/**
 * Whether the pump, with the clearances it has, lifts oil to itself before the first start.
 *
 * @param options  temperature of oil and air [K], the sheet's cold when absent; drill: speed of the pump [rad/s]
 */
export function priming(
  book: Book,
  circuit: FilledCircuit,
  options: { readonly temperature?: number; readonly drill?: number } = {},
): Outcome<Priming> {
  const sheet = book.sheet?.oil?.priming;
  if (!sheet)
    return failed({
      code: 'oil/no-priming',
      at: '/oil/priming',
      got: 'a spec sheet that does not say how high the pump sits over the oil',
      wanted: 'oil.priming with lift and cranking speed',
      message:
        'Whether the pump primes cannot be told: the spec sheet does not say how high it sits over the oil. Add oil.priming with lift and cranking.',
    });
  const pump = pumpOf(circuit);
  if (!pump)
    return failed({
      code: 'oil/no-dry-pump',
      at: '/oil/circuit/elements',
      got: 'no pump whose gaps are known',
      wanted: 'one',
      message:
        'Whether the pump primes cannot be told: the circuit knows no gap of its pump. Add its end or side, tip and body clearance with their paths.',
    });
  const temperature = options.temperature ?? quantityOf(book.sheet?.oil?.cold, 'temperature') ?? 293.15;
  const oil = oilAt(circuit, temperature);
  const lift = metre(quantityOf(sheet.lift, 'length')!);
  const density = kilogramPerCubicMetre(oil.density);
  const air = airViscosity(kelvin(temperature));
  const at = (viscosity: number) => (values: readonly number[]) => ({
    displacement: pump.displacement,
    conductance: pump.conductance(values, viscosity),
  });
  const gaps = pump.gaps.map(({ value }) => value);
  const lifted = (viscosity: number, speed: number): Uncertain =>
    propagated((values) => {
      const inlet = dryInletPressure(at(viscosity)(values), radianPerSecond(speed), ATMOSPHERE);
      return liftOf(pascal(ATMOSPHERE - inlet), density);
    }, gaps);
  const needed = propagated((values) => speedToLift(at(air)(values), lift, density, ATMOSPHERE), gaps);
  const most = liftOf(INLET_DEPRESSION_PRACTICE, density);
  const passages = passageVolume(circuit);
  const besides = quantityOf(sheet.fill_volume, 'volume');
  const drive = (by: PrimingDrive['by'], speed: number): PrimingDrive => {
    const dry = lifted(air, speed);
    const oiled = lifted(oil.viscosity, speed);
    const sealed = oiled.value > most ? exact(most) : oiled;
    return {
      by,
      speed,
      dry,
      dryVerdict: reaches(dry, lift),
      sealed,
      sealedVerdict: reaches(sealed, lift),
      fill: (passages + (besides ?? 0)) / ((pump.displacement * speed) / (2 * Math.PI)),
    };
  };
  return ok({
    lift,
    temperature,
    gaps: pump.gaps,
    displacement: pump.displacement,
    drives: [
      drive('starter', quantityOf(sheet.cranking, 'speed')! * pump.ratio),
      drive('drill', options.drill ?? quantityOf(sheet.drill, 'speed') ?? HAND_DRILL),
    ],
    ...(Number.isFinite(needed.value) && { neededSpeed: needed }),
    sealing: oil.viscosity / air,
    passages,
    ...(besides !== undefined && { besides }),
  });
}

const reaches = (possible: Uncertain, lift: number): Answer =>
  decisionOn(estimateOf(possible), { lower: lift }, RISK).verdict;

interface Pump {
  readonly displacement: number;
  /** Speed of the pump over that of the crank. */
  readonly ratio: number;
  readonly gaps: readonly PumpGap[];
  /** Slip for each pressure difference, with the gaps as given, in their order [m³/(s Pa)] */
  readonly conductance: (gaps: readonly number[], viscosity: number) => number;
}

/** The pump that feeds the engine, when its gaps are known to the circuit; of several, the one that sweeps most. */
function pumpOf(circuit: FilledCircuit): Pump | undefined {
  const elements = circuit.input.elements as readonly Record<string, unknown>[];
  const pumps = elements.flatMap(({ id, law: name }): Pump[] => {
    const law = String(name);
    const prefix = `${String(id)}.`;
    const gaps = slipGaps(law).flatMap((key): (PumpGap & { key: string })[] => {
      const filled = circuit.parameters.find((one) => one.name === prefix + key);
      const words = key.replaceAll('_', ' ');
      if (filled?.measured) return [{ key, name: words, value: filled.measured, measured: true }];
      const nominal = circuit.network.parameters[prefix + key];
      return nominal === undefined ? [] : [{ key, name: words, value: exact(nominal), measured: false }];
    });
    const own = Object.fromEntries(
      Object.entries(circuit.network.parameters).flatMap(([key, value]) =>
        key.startsWith(prefix) ? [[key.slice(prefix.length), value]] : [],
      ),
    );
    const ratio = own.speed_ratio;
    if (gaps.length === 0 || ratio === undefined) return [];
    const figures = (values: readonly number[]) =>
      pumpFigures(law as LawName, {
        ...own,
        ...Object.fromEntries(gaps.map(({ key }, i) => [key, values[i]!])),
      });
    const swept = figures(gaps.map(({ value }) => value.value)).perRadian;
    return [
      {
        displacement: (2 * Math.PI * swept) / ratio,
        ratio,
        gaps: gaps.map(({ key: _, ...gap }) => gap),
        conductance: (values, viscosity) => figures(values).slip / viscosity,
      },
    ];
  });
  return pumps.sort((a, b) => b.displacement * b.ratio - a.displacement * a.ratio)[0];
}

function passageVolume({ input, network }: FilledCircuit): number {
  const elements = input.elements as readonly Record<string, unknown>[];
  return elements.reduce((sum, { id, law }) => {
    if (law !== 'passage') return sum;
    const bore = network.parameters[`${String(id)}.bore`] ?? 0;
    const length = network.parameters[`${String(id)}.length`] ?? 0;
    return sum + (Math.PI / 4) * bore * bore * length * (network.parameters[`${String(id)}.count`] ?? 1);
  }, 0);
}
