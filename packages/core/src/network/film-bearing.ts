import { type BearingTable, bearingTable, feedCurve } from '../film/bearing-table.ts';
import { onCurve } from '../film/monotone-curve.ts';
import { type BearingShape, type Supply, shapeFault } from '../film/supply.ts';
import { type Choices, fallback, given, type Law, needed, optional, type Parameters } from './element.ts';
import type { FlowAndSlope } from './flow-law.ts';

const KINDS = ['full-groove', 'half-groove', 'axial-groove', 'two-axial-grooves', 'hole'] as const;
type Kind = (typeof KINDS)[number];

/** What each supply says of its size. */
const SIZES: Readonly<Record<Kind, readonly string[]>> = {
  'full-groove': ['groove_width'],
  'half-groove': ['groove_width'],
  'axial-groove': ['groove_length', 'groove_arc'],
  'two-axial-grooves': ['groove_length', 'groove_arc'],
  hole: ['hole_diameter'],
};

/** Opposite the load, where the gap is wide. */
const OPPOSITE = Math.PI;

function supplyOf(p: Parameters, kind: Kind): Supply {
  switch (kind) {
    case 'full-groove':
      return { kind, width: p.groove_width! / p.length! };
    case 'half-groove':
      return { kind, width: p.groove_width! / p.length!, at: OPPOSITE };
    case 'axial-groove':
      return { kind, length: p.groove_length! / p.length!, arc: p.groove_arc!, at: OPPOSITE };
    case 'two-axial-grooves':
      return { kind, length: p.groove_length! / p.length!, arc: p.groove_arc! };
    case 'hole':
      return { kind, diameter: p.hole_diameter! / p.length!, at: OPPOSITE };
  }
}

/** More shapes than an engine has; past it the oldest table is built again when it is wanted. */
const KEPT = 32;
const tables = new Map<string, BearingTable>();

/** The table of a shape, built once: a quarter of a second the first time. */
function tableOf(shape: BearingShape): BearingTable {
  const key = JSON.stringify(shape);
  const known = tables.get(key);
  if (known) return known;
  const table = bearingTable(shape);
  if (tables.size >= KEPT) tables.delete(tables.keys().next().value!);
  tables.set(key, table);
  return table;
}

/** Two figures, without an exponent where none is needed. */
const two = (value: number): string => String(Number(value.toPrecision(2)));

/** Where a Sommerfeld number lies beyond the rows of a table, and what was taken instead. */
function loadWords({ logSommerfeld }: BearingTable, sommerfeld: number): string {
  const [least, most] = [Math.exp(logSommerfeld[0]!), Math.exp(logSommerfeld[logSommerfeld.length - 1]!)];
  const side = sommerfeld < least ? 'more heavily' : 'more lightly';
  return `its film is loaded ${side} (Sommerfeld number ${two(sommerfeld)}) than films were solved for (${two(least)} to ${two(most)}); its flow is that of the nearest, a guess`;
}

/** Where a supply pressure lies beyond the columns of a table; undefined where it lies among them. */
function supplyWords({ supply }: BearingTable, asked: number): string | undefined {
  const [least, most] = [supply[0]!, supply[supply.length - 1]!];
  if (asked >= least - 1e-9 && asked <= most * (1 + 1e-9)) return undefined;
  return `its film is fed at a pressure of p* = ${two(asked)} in units of μ ω R²/c², and films were solved from ${least} to ${most}; from there its flow goes straight on with pressure, a guess`;
}

const kindOf = (choices: Choices): Kind => choices.supply as Kind;

export const filmBearing: Law = {
  doc: 'Plain bearing under a load, its film solved over its finite length and conserving mass, fed by groove or hole: what the turning journal draws is in it. From a table of the shape, built when first asked for. Loads outside the table take its nearest row, pressures outside it go straight on; both are cautioned.',
  formula: 'Q = c ω R² q(S, p*), S = (R/c)² μ N D L/W, p* = Δp c²/(μ ω R²)',
  source: 'jakobsson-floberg',
  parameters: {
    diameter: needed('length', 'of the journal'),
    length: needed('length', 'of the whole bearing, grooves included'),
    radial_clearance: needed('length', 'half of the diametral clearance'),
    load: needed('force', 'steady part of the load of the whole bearing'),
    load_per_krpm2: fallback(
      'force',
      'part of the load that grows with the square of the speed: its value at 1000 rev/min of the crank',
      0,
      { min: 0 },
    ),
    speed_ratio: fallback('ratio', 'speed of the journal over speed of the crank', 1),
    hole_diameter: optional('length', 'of the oil hole, opposite the load'),
    groove_width: optional('length', 'of a groove all or half round, along the bearing'),
    groove_length: optional('length', 'of a groove along the bearing'),
    groove_arc: optional('angle', 'taken by a groove along the bearing', { above: 0, below: Math.PI / 2 }),
  },
  choices: {
    supply: {
      choices: KINDS,
      fallback: 'hole',
      doc: 'how oil gets in; a groove half round, one along or a hole lie opposite the load, two along a quarter turn either side',
    },
  },
  exactlyOne: [[['hole_diameter'], ['groove_width'], ['groove_length', 'groove_arc']]],
  fault: faultOf,
  flow: (p, c, choices) => {
    const radius = p.diameter! / 2;
    const clearance = p.radial_clearance!;
    const turning = c.speed * p.speed_ratio!;
    const krpm = (c.speed * 30) / Math.PI / 1000;
    const load = p.load! + p.load_per_krpm2! * krpm * krpm;
    const sommerfeld =
      ((radius / clearance) ** 2 * c.viscosity * (turning / (2 * Math.PI)) * p.diameter! * p.length!) / load;
    const table = tableOf({
      lengthOverDiameter: p.length! / p.diameter!,
      supply: supplyOf(p, kindOf(choices)),
    });
    const { supply, feed, slopes, within } = feedCurve(table, sommerfeld);
    const pressure = (c.viscosity * turning * radius * radius) / (clearance * clearance);
    const flow = clearance * turning * radius * radius;
    const law = (difference: number, out: FlowAndSlope): void => {
      onCurve(supply, feed, slopes, difference / pressure, out);
      out.flow *= flow;
      out.slope *= flow / pressure;
    };
    const loaded = within ? undefined : loadWords(table, sommerfeld);
    return Object.assign(law, {
      outside: (difference: number): string | undefined => {
        const fed = supplyWords(table, difference / pressure);
        return loaded && fed ? `${loaded}; and ${fed}` : (loaded ?? fed);
      },
    });
  },
};

/** Sizes go with the supply chosen, and are smaller than the bearing is long. */
function faultOf(p: Parameters, choices: Choices): { key: string; wanted: string } | undefined {
  const kind = kindOf(choices);
  const missing = SIZES[kind].find((key) => !given(p[key]));
  if (missing !== undefined) return { key: missing, wanted: `the ${missing} of a ${kind}` };
  const long = ['hole_diameter', 'groove_width', 'groove_length'].find((key) => p[key]! >= p.length!);
  if (long !== undefined) return { key: long, wanted: 'less than the bearing is long' };
  const fault = shapeFault({ lengthOverDiameter: p.length! / p.diameter!, supply: supplyOf(p, kind) });
  // The width of an axial groove is told here as the angle it takes.
  return fault && !given(p[fault.key]) ? { key: 'groove_arc', wanted: fault.wanted } : fault;
}
