import * as z from 'zod';

/**
 * How one characteristic follows from others: four forms, which nest.
 * Places are matched by the names of their axes; an axis only one side has is spread over the other.
 */

const id = z.string().min(1).max(120);

/** A characteristic, perhaps at one place of it, perhaps with its axes renamed to those of the result. */
const characteristicReference = z.strictObject({
  characteristic: id,
  at: z.record(z.string(), z.string()).optional().describe('fixes axes: {"main": "2"}'),
  rename: z.record(z.string(), z.string()).optional().describe('its axis → the axis of the result'),
});

export type Reduction = 'worst' | 'mean' | 'range' | 'mean-cube' | 'greatest' | 'least';
export const reduction = z.enum(['worst', 'mean', 'range', 'mean-cube', 'greatest', 'least']);

export interface Linear {
  terms: { factor: number; of: Relation }[];
  constant?: string | undefined;
}

/** What a calculator is given: a characteristic, one along an axis with spots, or what the sheet says. */
export type CalculatorInput = { of: Relation; over?: string | undefined } | { is: string };

export type Relation =
  | string
  | z.infer<typeof characteristicReference>
  | { linear: Linear }
  | { reduce: { by: Reduction; over: string[]; of: Relation } }
  | { ratio: { of: Linear; by: Linear } }
  | {
      calculator: { name: string; inputs: Record<string, CalculatorInput>; output: string };
    };

const linear: z.ZodType<Linear> = z.lazy(() =>
  z.strictObject({
    terms: z.array(z.strictObject({ factor: z.number(), of: relationSchema })),
    constant: z.string().optional().describe('a quantity with its unit'),
  }),
);

export const relationSchema: z.ZodType<Relation> = z.lazy(() =>
  z.union([
    id.describe('the id of a characteristic'),
    characteristicReference,
    z.strictObject({ linear }).describe('signed coefficients and a constant'),
    z.strictObject({
      reduce: z.strictObject({ by: reduction, over: z.array(z.string()).min(1), of: relationSchema }),
    }),
    z.strictObject({ ratio: z.strictObject({ of: linear, by: linear }) }),
    z.strictObject({
      calculator: z.strictObject({
        name: z.string().describe('a name of the calculator catalogue'),
        inputs: z.record(
          z.string(),
          z.union([
            z.strictObject({
              of: relationSchema,
              over: z
                .string()
                .optional()
                .describe(
                  'an axis with spots: the points, each with its place on the face and what is read there',
                ),
            }),
            z.strictObject({ is: z.string().describe('a quantity, a word or a choice') }),
          ]),
        ),
        output: z.string(),
      }),
    }),
  ]),
);

/** Whether it is reckoned from what is read all over a face: such a thing is no sum that stacks up. */
export const isOverSpots = (relation: Relation | undefined): boolean =>
  typeof relation === 'object' &&
  'calculator' in relation &&
  Object.values(relation.calculator.inputs).some((input) => 'of' in input && input.over !== undefined);

/** The characteristics a relation rests on directly, each once, in the order met. */
export function characteristicsIn(relation: Relation): string[] {
  const found = new Set<string>();
  const visit = (node: Relation): void => {
    if (typeof node === 'string') found.add(node);
    else if ('characteristic' in node) found.add(node.characteristic);
    else if ('linear' in node) for (const term of node.linear.terms) visit(term.of);
    else if ('reduce' in node) visit(node.reduce.of);
    else if ('ratio' in node)
      for (const term of [...node.ratio.of.terms, ...node.ratio.by.terms]) visit(term.of);
    else for (const input of Object.values(node.calculator.inputs)) if ('of' in input) visit(input.of);
  };
  visit(relation);
  return [...found];
}
