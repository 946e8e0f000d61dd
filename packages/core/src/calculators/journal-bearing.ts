import { type Answer, calculator } from '../catalogue/calculator.ts';
import { defaultedChoice, optionalQuantity, quantity } from '../catalogue/field.ts';
import { type FedBearing, fedBearingAt, fedBearingFor } from '../film/fed-bearing.ts';
import {
  PLAIN_ECCENTRICITY,
  type PlainBearing,
  plainBearingAt,
  plainBearingFor,
  plainFilm,
} from '../film/plain-film.ts';
import { isoSommerfeld, trumplerFilm } from '../film/steady-limits.ts';
import { SUPPLY_RANGE, type Supply, shapeFault } from '../film/supply.ts';
import type { Caution, Issue } from '../issue.ts';
import { metre } from '../units/si.ts';

const SUPPLIES = [
  'flooded',
  'full-groove',
  'half-groove',
  'axial-groove',
  'two-axial-grooves',
  'hole',
] as const;
type SupplyName = (typeof SUPPLIES)[number];

/** What each way of feeding must be told, and may be told. */
const SIZES: Readonly<
  Record<SupplyName, { readonly needs: readonly string[]; readonly takes: readonly string[] }>
> = {
  flooded: { needs: [], takes: [] },
  'full-groove': { needs: ['supply_pressure', 'groove_width'], takes: [] },
  'half-groove': { needs: ['supply_pressure', 'groove_width'], takes: ['supply_angle'] },
  'axial-groove': { needs: ['supply_pressure', 'groove_length', 'groove_width'], takes: ['supply_angle'] },
  'two-axial-grooves': { needs: ['supply_pressure', 'groove_length', 'groove_width'], takes: [] },
  hole: { needs: ['supply_pressure', 'hole_diameter'], takes: ['supply_angle'] },
};

/** ε beyond which surfaces, bending and heat decide more than a smooth film of one viscosity does. */
const THIN = 0.95;

export const JOURNAL_BEARING = calculator({
  name: 'journal-bearing',
  sentence:
    'What the oil film of a plain journal bearing carries, how thin it gets, what it leaks and what it costs in friction.',
  formula: [
    '∂/∂x(h³ ∂p/∂x) + ∂/∂z(h³ ∂p/∂z) = 6 μ U ∂h/∂x,  h = c (1 + ε cos θ), by finite volumes',
    'S = (r/c)² μ N/P,  P = W/(L D), N in revolutions per second',
    'flooded: p = 0 at the widest gap and at the edges, p = ∂p/∂x = 0 where the film ruptures; friction with a full film all round',
    'any other supply: mass is conserved through rupture, p = supply_pressure on groove or hole; friction of the film there is',
  ],
  sources: [
    'reynolds',
    'raimondi-boyd',
    'khonsari-booser',
    'elrod-adams',
    'jakobsson-floberg',
    'judice-pires',
  ],
  input: {
    diameter: quantity('length', 'D = 2 r, of the journal'),
    length: quantity('length', 'L, of the whole bearing, a groove in its middle included'),
    radial_clearance: quantity('length', 'c, half of the diametral clearance'),
    speed: quantity('speed', 'of the journal'),
    dynamic_viscosity: quantity('dynamic-viscosity', 'μ, of the film'),
    load: optionalQuantity('force', 'W, steady'),
    eccentricity_ratio: optionalQuantity('ratio', 'ε, eccentricity over radial clearance', {
      min: PLAIN_ECCENTRICITY.least,
      max: PLAIN_ECCENTRICITY.most,
    }),
    supply: defaultedChoice(
      'how oil gets in; flooded is the plain bearing of the design tables, all others conserve mass',
      SUPPLIES,
      'flooded',
    ),
    supply_pressure: optionalQuantity('pressure', 'p_s in groove or hole, over the surroundings', { min: 0 }),
    groove_width: optionalQuantity(
      'length',
      'of a full or half groove: along the bearing; of an axial groove: round the journal',
    ),
    groove_length: optionalQuantity('length', 'of an axial groove, along the bearing'),
    hole_diameter: optionalQuantity('length', 'of the oil hole'),
    supply_angle: optionalQuantity(
      'angle',
      'middle of groove or hole from the direction of the load on the journal, in the sense of rotation; 180° when not given',
      { min: 0, max: 2 * Math.PI },
    ),
  },
  exactlyOne: [[['load'], ['eccentricity_ratio']]],
  output: {
    load: { kind: 'force', doc: 'W' },
    sommerfeld_number: { kind: 'ratio', doc: 'S' },
    eccentricity_ratio: { kind: 'ratio', doc: 'ε' },
    minimum_film: { kind: 'length', doc: 'h0 = c (1 − ε)' },
    attitude_angle: { kind: 'angle', doc: 'φ, from the load line to the narrowest gap' },
    friction_variable: { kind: 'ratio', doc: '(r/c) f' },
    flow_variable: {
      kind: 'ratio',
      doc: 'Q/(r c N L): through the widest gap when flooded, else out of groove or hole',
    },
    side_flow_ratio: { kind: 'ratio', doc: 'Qs/Q' },
    side_flow: { kind: 'flow', doc: 'Qs, out of both edges' },
    friction_torque: { kind: 'torque', doc: 'f W r' },
    power_loss: { kind: 'power', doc: 'torque times speed' },
    maximum_pressure: { kind: 'pressure', doc: 'p_max of the film' },
    iso_sommerfeld_number: { kind: 'ratio', doc: 'So = F ψ²/(D B η ω) of ISO 7902, 1/(2 π S)' },
    feed_flow: { kind: 'flow', doc: 'Q, out of groove or hole', optional: true },
    supply_number: { kind: 'ratio', doc: 'p* = p_s c²/(μ ω r²)', optional: true },
    supply_angle: { kind: 'angle', doc: 'as used', optional: true },
  },
  range:
    'steady load, smooth and rigid surfaces, laminar film of one viscosity, length from 0.05 to 4 diameters, ε to 0.99; within about 0.3 % of a solution on a far finer grid when flooded, 1 to 2 % when fed',
  example: {
    diameter: '2.125 in',
    length: '1.0 in',
    radial_clearance: '1 thou',
    speed: '2400 rpm',
    dynamic_viscosity: '10 mPa.s',
    load: '600 lbf',
  },
  compute: (i) => {
    const issues = supplyIssues(i.supply as SupplyName, i);
    if (issues.length > 0) return { issues };
    const ratio = i.length / i.diameter;
    const shape = { lengthOverDiameter: ratio, supply: supplyOf(i.supply as SupplyName, i) };
    const fault = shapeFault(shape);
    if (fault) {
      const value = (i as Record<string, unknown>)[fault.key];
      return {
        issues: [
          {
            code: 'journal-bearing/shape',
            at: fault.key,
            got: `${value} m in a bearing ${i.length} m long and ${i.diameter} m in diameter`,
            wanted: fault.wanted,
            message: `The film is only solved for ${fault.wanted}. Check the sizes and their units.`,
          },
        ],
      };
    }
    const r = i.diameter / 2;
    const pressure = i.dynamic_viscosity * i.speed * (r / i.radial_clearance) ** 2;
    // P = S⁻¹ (r/c)² μ N
    const unit = pressure / (2 * Math.PI);
    const wanted = i.load === undefined ? undefined : (unit * i.length * i.diameter) / i.load;
    const scales: Scales = { r, c: i.radial_clearance, length: i.length, speed: i.speed, unit, pressure };
    if (shape.supply === undefined) {
      const film = plainFilm(ratio);
      const found =
        wanted === undefined ? plainBearingAt(film, i.eccentricity_ratio!) : plainBearingFor(film, wanted);
      return found
        ? flooded(asAsked(found, wanted), scales, i.supply)
        : unsolved(i.load, i.eccentricity_ratio);
    }
    const supply = i.supply_pressure! / pressure;
    if (supply > SUPPLY_RANGE.most)
      return {
        issues: [
          {
            code: 'journal-bearing/supply-pressure',
            at: 'supply_pressure',
            got: `p* = ${supply.toPrecision(3)}`,
            wanted: `p* = p_s c²/(μ ω r²) up to ${SUPPLY_RANGE.most}`,
            message:
              'The supply outweighs all that the turning journal can do: this is no longer a bearing that carries by turning. Check speed, clearance and pressure and their units.',
          },
        ],
      };
    const fed = { lengthOverDiameter: ratio, supply: shape.supply };
    const found =
      wanted === undefined
        ? fedBearingAt(fed, i.eccentricity_ratio!, supply)
        : fedBearingFor(fed, wanted, supply);
    if (!found) return unsolved(i.load, i.eccentricity_ratio);
    return fedAnswer(
      asAsked(found, wanted),
      scales,
      i.supply,
      'at' in shape.supply ? shape.supply.at : undefined,
    );
  },
});

type Given = Readonly<Record<string, unknown>>;

interface Scales {
  readonly r: number;
  readonly c: number;
  readonly length: number;
  readonly speed: number;
  /** (r/c)² μ N [Pa] */
  readonly unit: number;
  /** μ ω r²/c² [Pa] */
  readonly pressure: number;
}

function supplyIssues(supply: SupplyName, given: Given): Issue[] {
  const { needs, takes } = SIZES[supply];
  const issues: Issue[] = needs
    .filter((key) => given[key] === undefined)
    .map((key) => ({
      code: 'journal-bearing/missing',
      at: key,
      got: 'nothing',
      wanted: `${needs.join(', ')} for supply ${supply}`,
      message: `A bearing fed by ${supply} needs ${key}. Add it, with its unit.`,
    }));
  for (const key of ['supply_pressure', 'groove_width', 'groove_length', 'hole_diameter', 'supply_angle'])
    if (given[key] !== undefined && !needs.includes(key) && !takes.includes(key))
      issues.push({
        code: 'journal-bearing/not-used',
        at: key,
        got: String(given[key]),
        wanted:
          needs.length > 0 ? `${[...needs, ...takes].join(', ')} for supply ${supply}` : 'no supply sizes',
        message: `Supply ${supply} has no ${key}. Leave it out, or say which other supply the bearing has.`,
      });
  return issues;
}

function supplyOf(supply: SupplyName, given: Given): Supply | undefined {
  const size = (key: string): number => given[key] as number;
  const share = (key: string): number => size(key) / size('length');
  const at = (given.supply_angle as number | undefined) ?? Math.PI;
  const arc = (): number => size('groove_width') / (size('diameter') / 2);
  switch (supply) {
    case 'flooded':
      return undefined;
    case 'full-groove':
      return { kind: supply, width: share('groove_width') };
    case 'half-groove':
      return { kind: supply, width: share('groove_width'), at };
    case 'axial-groove':
      return { kind: supply, length: share('groove_length'), arc: arc(), at };
    case 'two-axial-grooves':
      return { kind: supply, length: share('groove_length'), arc: arc() };
    case 'hole':
      return { kind: supply, diameter: share('hole_diameter'), at };
  }
}

function thin(e: number, s: Scales): Caution[] {
  const film = s.c * (1 - e);
  const guide = trumplerFilm(metre(2 * s.r));
  if (e <= THIN)
    return film < guide
      ? [
          {
            code: 'journal-bearing/under-guide',
            message: `Under a steady load Trumpler asks for a film of ${(guide * 1e6).toFixed(1)} μm here; this is ${(film * 1e6).toFixed(1)} μm. The guide does not judge the short peaks of an engine.`,
          },
        ]
      : [];
  return [
    {
      code: 'journal-bearing/thin-film',
      message: `At ε ${e.toFixed(3)} roughness, bending and the heat in the thin film count for more than a smooth film of one viscosity tells. Take the figures as a sign that the bearing is near touching.`,
    },
  ];
}

/** The results that both kinds share; `flow` is Q/(r c N L), `p` the greatest pressure [Pa]. */
function shared(
  b: {
    readonly sommerfeld: number;
    readonly eccentricity: number;
    readonly attitude: number;
    readonly friction: number;
  },
  s: Scales,
  flow: number,
  sideRatio: number,
  p: number,
) {
  const load = (s.unit / b.sommerfeld) * s.length * s.r * 2;
  const torque = b.friction * (s.c / s.r) * load * s.r;
  return {
    load,
    sommerfeld_number: b.sommerfeld,
    eccentricity_ratio: b.eccentricity,
    minimum_film: s.c * (1 - b.eccentricity),
    attitude_angle: b.attitude,
    friction_variable: b.friction,
    flow_variable: flow,
    side_flow_ratio: sideRatio,
    side_flow: (sideRatio * flow * s.r * s.c * s.length * s.speed) / (2 * Math.PI),
    friction_torque: torque,
    power_loss: torque * s.speed,
    maximum_pressure: p,
    iso_sommerfeld_number: isoSommerfeld(b.sommerfeld),
  };
}

/** A load that was given is answered as given, not as found to a few parts in a hundred thousand. */
const asAsked = <T extends { readonly sommerfeld: number }>(found: T, wanted: number | undefined): T =>
  wanted === undefined ? found : { ...found, sommerfeld: wanted };

const flooded = (b: PlainBearing, s: Scales, supply: string): Answer => ({
  results: { ...shared(b, s, b.flow, b.sideRatio, (b.peak * s.unit) / b.sommerfeld), supply },
  cautions: thin(b.eccentricity, s),
});

function fedAnswer(b: FedBearing, s: Scales, supply: string, angle: number | undefined): Answer {
  const feed = b.feedFlow * s.c * s.speed * s.r * s.r;
  const flow = b.feedFlow * 2 * Math.PI * (s.r / s.length);
  return {
    results: {
      // Nothing fed leaves nothing to take a share of.
      ...shared(b, s, flow, b.feedFlow > 0 ? b.sideFlow / b.feedFlow : 0, b.peak * s.pressure),
      feed_flow: feed,
      supply_number: b.supply,
      supply_angle: angle,
      supply,
    },
    cautions: [
      ...thin(b.eccentricity, s),
      ...(b.imbalance > 1e-4 && Math.abs(b.feedFlow) > 1e-9
        ? [
            {
              code: 'journal-bearing/imbalance',
              message: `What goes in and what comes out differ by ${(b.imbalance * 100).toPrecision(2)} %.`,
            },
          ]
        : []),
    ],
  };
}

const unsolved = (load: number | undefined, e: number | undefined): Answer => ({
  issues: [
    {
      code: 'journal-bearing/no-film',
      at: load === undefined ? 'eccentricity_ratio' : 'load',
      got: load === undefined ? `ε = ${e}` : `${load} N`,
      wanted: `a load that a film carries at ε from ${PLAIN_ECCENTRICITY.least} to ${PLAIN_ECCENTRICITY.most}`,
      message:
        load === undefined
          ? 'With this supply no film force at this eccentricity lies in the load line. Give the load instead, or lower the supply pressure.'
          : 'No film was found that carries this load: it is too heavy or too light for this speed, viscosity and clearance. Check them and their units.',
    },
  ],
});
