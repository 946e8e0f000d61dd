import { QUANTITY_KINDS, type QuantityKind } from '@fettle/core';
import * as z from 'zod';
import { reduction, relationSchema } from './relation.ts';

/**
 * The spec sheet: what can be measured on an engine, how it is judged, and where each limit comes from.
 * Quantities are strings with their unit, as the source prints them.
 */

const id = z
  .string()
  .regex(/^[a-z0-9][a-z0-9.-]*$/, 'lower-case letters, digits, dots and hyphens')
  .max(120);
/** An id in which `{axis}` stands for the value of an axis: `rod-{rod}`. */
const idPattern = z
  .string()
  .regex(/^[a-z0-9][a-z0-9.\-{}]*$/, 'an id, with {axis} where a place goes')
  .max(120);
const quantity = z.string().min(1).max(80);
const prose = z.string().max(5000);

export const TRUSTS = ['printed', 'remembered', 'calculated', 'assumed'] as const;
export type Trust = (typeof TRUSTS)[number];

const sourceSchema = z.strictObject({
  document: z.string().min(1).max(120).describe('an id of `documents`'),
  page: z.string().max(60).optional(),
  trust: z.enum(TRUSTS),
  note: prose.optional(),
});
export type LimitSource = z.infer<typeof sourceSchema>;

const limitSet = z.strictObject({
  lower: quantity.optional(),
  upper: quantity.optional(),
  target: quantity.optional(),
  source: sourceSchema.optional().describe('where this set differs from the characteristic’s own source'),
  sources: z
    .strictObject({
      lower: sourceSchema.optional(),
      upper: sourceSchema.optional(),
      target: sourceSchema.optional(),
    })
    .optional()
    .describe('of single bounds, where they come from elsewhere than the set'),
});
export type LimitSet = z.infer<typeof limitSet>;

const kinds = Object.keys(QUANTITY_KINDS) as [QuantityKind, ...QuantityKind[]];

const readAs = z.strictObject({
  how: z
    .string()
    .min(1)
    .max(300)
    .describe('how a reading of this measurand is taken, in words for the bench'),
  factor: z.number().default(1).describe('multiplies the reading to give the characteristic’s measurand'),
  plus: z
    .array(z.strictObject({ factor: z.number(), of: relationSchema }))
    .optional()
    .describe('what must be added to it, measured elsewhere'),
});

export const characteristicSchema = z.strictObject({
  id,
  line: z.string().max(20).optional().describe('its number on the sheet'),
  name: z.string().min(1).max(200),
  group: z.string().max(80).optional(),
  kind: z.union([z.enum(kinds), z.literal('seen')]),
  unit: z.string().max(30).optional().describe('the unit in which it is printed and shown'),
  decimals: z.int().min(0).max(9).optional(),
  measurand: z.string().max(60).default('direct').describe('per side, total, radial, diametral …'),
  read_as: z
    .record(z.string(), readAs)
    .optional()
    .describe('other measurands in which it may be read, and how they become this one'),
  ask_measurand: z.boolean().optional().describe('a reading must say its measurand: there is no safe guess'),
  position: idPattern.optional().describe('where the part it belongs to is fitted'),
  mates: z.array(idPattern).optional().describe('positions whose parts a direct reading rests on as well'),
  places: z.array(z.string()).default([]).describe('axes; the places are all their combinations'),
  only: z
    .record(z.string(), z.array(z.string()))
    .optional()
    .describe('the values of an axis that this characteristic has, when not all'),
  reduce: z
    .strictObject({ by: reduction, over: z.array(z.string()).min(1) })
    .optional()
    .describe('what is judged; axes not named are judged one by one'),
  relation: relationSchema.optional(),
  limits: z.strictObject({ new: limitSet.optional(), wear: limitSet.optional() }).optional(),
  no_limits: prose.optional().describe('why there are none, such as “the manual gives none”'),
  wanted: z.string().max(300).optional().describe('for what is seen: what it must look like'),
  source: sourceSchema.optional(),
  sizes: z
    .array(z.strictObject({ name: z.string().max(60), shift: quantity, obtainable: z.boolean() }))
    .optional(),
  taken: prose.optional().describe('how it is taken'),
  with: z.string().max(60).optional().describe('the type of instrument it is usually taken with'),
  non_negative: z
    .boolean()
    .optional()
    .describe('cannot be below zero, so an unread one still leaves a lower edge'),
  spring_length: z
    .string()
    .max(30)
    .optional()
    .describe('of a spring: the length at which this load is taken; `free` or `solid` for a length itself'),
  expansion: quantity.optional().describe('mean linear expansion of the part, for readings away from 20 °C'),
  material: id
    .optional()
    .describe('of the part this is a length of, an id of `materials`: its expansion is the length’s'),
  optional: z.boolean().optional().describe('not needed to close a cover'),
  caution: prose.optional().describe('what can hurt somebody while taking it'),
  note: prose.optional(),
});
export type Characteristic = z.infer<typeof characteristicSchema>;

const fastenerSchema = z.strictObject({
  id,
  line: z.string().max(20).optional(),
  name: z.string().min(1).max(200),
  thread: z.string().max(40).optional(),
  grade: z.string().max(40).optional(),
  condition: z.string().max(40).optional().describe('dry, oiled … decides the nut factor'),
  nut_factor: z.number().positive().optional().describe('where the sheet states one'),
  into: z
    .strictObject({
      thread: z
        .string()
        .max(40)
        .optional()
        .describe('of the hole, where it was found out on its own; the screw’s when absent'),
      engagement: quantity.optional().describe('full thread in the hole'),
      tensile_strength: quantity.optional().describe('of the part that is tapped'),
      material: z.string().max(80).optional(),
    })
    .optional()
    .describe('the hole it is turned into, where that is not a nut as strong as itself'),
  torque: z.strictObject({ lower: quantity, upper: quantity.optional() }),
  places: z.array(z.string()).default([]),
  clamps: z
    .array(z.string())
    .optional()
    .describe(
      'positions it holds together; absent: those that stand at its own places. One fitted anew or reworked asks for the torque again',
    ),
  passes: z.int().positive().default(1),
  order: prose.optional(),
  source: sourceSchema,
  caution: prose.optional(),
});
export type Fastener = z.infer<typeof fastenerSchema>;

const coverSchema = z.strictObject({
  id,
  name: z.string().min(1).max(200),
  order: z.int().describe('the order in which covers go on'),
  reopen_hours: z.number().nonnegative().describe('work to reopen it once closed'),
  hides: z.strictObject({
    characteristics: z.array(z.string()).default([]).describe('ids, or `crank.*` for all that begin so'),
    fasteners: z.array(z.string()).default([]),
    openings: z.array(z.string()).optional().describe('ids of openings that must be as they belong'),
  }),
  caution: prose.optional(),
});
export type Cover = z.infer<typeof coverSchema>;

/** What decides whether a dry pump lifts oil to itself before the first start. */
const primingSchema = z.strictObject({
  lift: quantity.describe('from the surface of the oil up to the pump'),
  cranking: quantity.describe('speed of the crank on the starter'),
  drill: quantity.optional().describe('speed of the pump when a drill drives it'),
  turns: z
    .string()
    .max(120)
    .optional()
    .describe('which way the pump turns, and seen from where: "clockwise, seen from above"'),
  fill_volume: quantity
    .optional()
    .describe(
      'to be filled beside the circuit’s passages before the gauge can show anything: filter, cooler',
    ),
  source: sourceSchema,
});

/** A circuit parameter taken from a characteristic rather than written down. */
export const fromCharacteristicSchema = z.strictObject({
  from: id,
  at: z.record(z.string(), z.string()).optional().describe('fixes axes of the characteristic'),
  reduce: z
    .enum(['one', 'mean', 'worst', 'mean-cube'])
    .optional()
    .describe('over the places left; overrides the characteristic’s own'),
  factor: z.number().default(1).describe('½ from diametral to radial'),
  nominal: quantity.describe('as new'),
  trust: z.enum(TRUSTS).default('assumed').describe('how far the nominal value is trusted'),
  repaired: quantity.optional().describe('after repair; the nominal value when absent'),
  repair: z
    .string()
    .max(80)
    .optional()
    .describe(
      'the repair that restores it, such as “relief spring”; the characteristic’s own name when absent',
    ),
});
export type FromCharacteristic = z.infer<typeof fromCharacteristicSchema>;

const circuitParameter = z.union([z.number(), z.string(), z.boolean(), fromCharacteristicSchema]);

const circuitSchema = z.looseObject({
  gauge: z.string().describe('the node the gauge reads'),
  elements: z.array(
    z.record(
      z.string(),
      z.union([circuitParameter, z.record(z.string(), z.unknown()), z.array(z.unknown())]),
    ),
  ),
});
export type Circuit = z.infer<typeof circuitSchema>;

/** A figure of the crank: written down, or taken from a characteristic; without a nominal one it may stay unknown. */
const crankFigure = z.union([
  quantity,
  fromCharacteristicSchema
    .pick({ from: true, at: true, reduce: true, trust: true })
    .extend({ nominal: quantity.optional().describe('until it is measured') }),
]);
export type CrankFigure = z.infer<typeof crankFigure>;

/** What loads the bearings: the sizes and masses of crank, rods and pistons, and what stands beside what. */
const crankSchema = z.strictObject({
  bore: crankFigure,
  stroke: crankFigure,
  rod: crankFigure.describe('between centres'),
  compression_ratio: crankFigure,
  piston_mass: crankFigure.optional().describe('one piston with its rings and pin'),
  rod_mass: crankFigure.optional().describe('one rod with its cap, bolts and shells'),
  rod_big_end_mass: crankFigure.optional().describe('of it, weighed at the big end'),
  throw_mass: crankFigure
    .optional()
    .describe('what of a throw turns unbalanced, as a mass at the crankpin, its balance weights taken off'),
  inlet_shuts: crankFigure.optional().describe('after bottom dead centre'),
  exhaust_opens: crankFigure.optional().describe('before bottom dead centre'),
  cylinders: z
    .array(
      z.strictObject({
        name: z.string().min(1).max(40),
        fires: quantity.describe('crank angle at which it fires, 0 to 720 deg, from the first one’s'),
        bore_direction: quantity
          .default('0 deg')
          .describe('of its bore, turned the way the crank turns: the bank of a V'),
        rod: z.string().max(120).describe('element of the circuit that is its big-end bearing'),
        mains: z
          .array(z.string().max(120))
          .min(1)
          .max(2)
          .describe('elements that are the main bearings beside its throw'),
        at: z
          .record(z.string(), z.string())
          .default({})
          .describe('fixes axes of the characteristics the figures come from: its rod, its piston'),
      }),
    )
    .min(1)
    .max(24),
});
export type CrankSheet = z.infer<typeof crankSchema>;

const pressureLimit = z.strictObject({
  speed: quantity,
  temperature: quantity,
  lower: quantity.optional(),
  upper: quantity.optional(),
  source: sourceSchema,
});
export type PressureLimit = z.infer<typeof pressureLimit>;

export const sheetSchema = z
  .strictObject({
    format: z.literal('fettle-spec-sheet'),
    version: z.literal(1),
    title: z.string().min(1).max(200),
    year: z.string().max(20).optional(),
    summary: prose.optional(),
    documents: z.record(z.string(), z.strictObject({ title: z.string(), edition: z.string().optional() })),
    axes: z
      .record(z.string(), z.array(z.string().min(1).max(40)).min(1))
      .default({})
      .describe('names of places, in the order in which the bench goes through them'),
    spots: z
      .record(z.string(), z.record(z.string(), z.tuple([quantity, quantity])))
      .optional()
      .describe('where on its face each value of an axis lies: along and across, from any corner'),
    materials: z
      .record(
        id,
        z.strictObject({
          name: z.string().min(1).max(80),
          expansion: quantity.describe('mean linear expansion near room temperature'),
          doubt: quantity
            .optional()
            .describe('standard uncertainty of the expansion as a share of it; 5 % when absent'),
          note: prose.optional().describe('where the figure comes from'),
        }),
      )
      .optional()
      .describe('what parts are made of, for readings away from 20 °C'),
    positions: z
      .array(z.strictObject({ id: idPattern, name: z.string(), places: z.array(z.string()).optional() }))
      .default([]),
    characteristics: z.array(characteristicSchema),
    fasteners: z.array(fastenerSchema).default([]),
    covers: z.array(coverSchema).default([]),
    openings: z
      .array(z.strictObject({ id, name: z.string().min(1).max(200), note: prose.optional() }))
      .optional()
      .describe('holes whose plugs, tape and rags are counted in and out'),
    oil: z
      .strictObject({
        grades: z.record(z.string(), z.strictObject({ name: z.string(), kv40: quantity, kv100: quantity })),
        fill: z.string().describe('the grade filled'),
        density15: quantity,
        pressures: z.array(pressureLimit).default([]),
        cold: quantity.optional().describe('the sump temperature meant by cold'),
        hot: quantity.describe('the sump temperature meant by hot'),
        speeds: z.array(quantity).describe('crank speeds at which pressure is shown; the first is idle'),
        circuit: circuitSchema.optional(),
        priming: primingSchema.optional(),
      })
      .optional(),
    crank: crankSchema.optional(),
  })
  .describe('Fettle spec sheet, version 1');
export type SpecSheet = z.infer<typeof sheetSchema>;
