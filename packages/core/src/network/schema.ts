import * as z from 'zod';
import type { Law, LawParameter } from './element.ts';
import { type FluidInput, fluidSchema, written } from './fluid.ts';
import { COMMON_PARAMETERS, LAWS } from './laws.ts';

/** The sump: gauge pressure zero, never listed among the nodes. */
export const SUMP = 'sump';

/** Below this an orifice is straightened; 5e-5 of the flow at 1 bar. */
export const DEFAULT_SMOOTHING = 10;

export interface ElementInput {
  readonly id: string;
  readonly law: string;
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  /** The law's parameters: text with its unit, or a bare number in SI. */
  readonly [parameter: string]: string | number | undefined;
}

/** A network as it stands in a file, complete but for speed and temperature, which may be left to the caller. */
export interface NetworkInput {
  readonly title?: string | undefined;
  readonly nodes?: readonly string[] | undefined;
  readonly gauge?: string | undefined;
  readonly fluid: FluidInput;
  readonly smoothing_pressure?: string | number | undefined;
  readonly speed?: string | number | undefined;
  readonly temperature?: string | number | undefined;
  readonly elements: readonly ElementInput[];
}

function parameterSchema({ kind, doc, fallback, required, ...bounds }: LawParameter) {
  const schema = written(fallback === undefined ? doc : `${doc}; ${fallback} when not given`, kind, bounds);
  return required ? schema : schema.optional();
}

const parametersOf = (parameters: Readonly<Record<string, LawParameter>>) =>
  Object.fromEntries(Object.entries(parameters).map(([key, p]) => [key, parameterSchema(p)]));

const node = z.string().min(1);

const endsOf = ({ pump, aside }: Law) => {
  if (aside) return {};
  if (pump)
    return {
      from: node.optional().describe('node it draws from; the sump when not given'),
      to: node.describe('node it delivers to'),
    };
  return {
    from: node.describe('upstream node'),
    to: node.optional().describe('downstream node; the sump when not given'),
  };
};

const elementSchemas = (Object.entries(LAWS) as [string, Law][]).map(([name, law]) =>
  z
    .strictObject({
      id: z.string().min(1).describe('names the element in answers and overrides'),
      law: z.literal(name),
      ...endsOf(law),
      ...parametersOf(COMMON_PARAMETERS),
      ...parametersOf(law.parameters),
      ...Object.fromEntries(
        Object.entries(law.choices ?? {}).map(([key, c]) => [
          key,
          z
            .enum(c.choices as [string, ...string[]])
            .optional()
            .describe(`${c.doc}; ${c.fallback} when not given`),
        ]),
      ),
    })
    .describe(`${law.doc} ${law.formula}`),
);

const { $schema: _dialect, ...eachElement } = z.toJSONSchema(
  z.discriminatedUnion('law', elementSchemas as unknown as [(typeof elementSchemas)[number]]),
  { io: 'input' },
);

/**
 * Checked in outline only, published in full: what an element lacks depends on its law, and is said in words
 * once the law is known.
 */
export const elementsSchema: z.ZodType<readonly ElementInput[]> = z
  .array(
    z
      .object({ id: node, law: node, from: node.optional(), to: node.optional() })
      .catchall(z.union([z.string(), z.number()]).optional()),
  )
  .min(1)
  .meta({ description: 'pump, valves, passages and leaks between nodes', items: eachElement });

export const nodesSchema = z
  .array(node)
  .optional()
  .describe(
    'names of the nodes; when given, an element that names another is an issue. "sump" is always there, at 0',
  );

/** The whole file, for its published JSON Schema and for checking its shape. */
export const networkSchema: z.ZodType<NetworkInput> = z
  .strictObject({
    title: z.string().optional(),
    nodes: nodesSchema,
    gauge: node.optional().describe('node that the oil gauge reads'),
    fluid: fluidSchema,
    smoothing_pressure: written(
      `pressure difference under which an orifice turns linear; ${DEFAULT_SMOOTHING} when not given`,
      'pressure',
    ).optional(),
    speed: written('speed of the crank', 'speed').optional(),
    temperature: written('of the oil in the sump', 'temperature').optional(),
    elements: elementsSchema,
  })
  .describe('A lubrication circuit: gauge pressures, the sump at zero.');
