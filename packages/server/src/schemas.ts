import {
  entryJsonSchema,
  envelopeSchema,
  isCurrency,
  isZone,
  LAYOUTS,
  specSheetJsonSchema,
  TAG_SIZES,
} from '@fettle/book';

import { z } from '@hono/zod-openapi';

/** The schemas of requests and answers: the handlers read by them, and the published contract is made of them. */

const hash = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 in lower-case hexadecimal');
const sequence = z.int().nonnegative();

export const jobPath = z.object({ id: z.uuid() });
export const jobSheetPath = z.object({ id: z.uuid(), hash });
export const hashPath = z.object({ hash });
export const calculatorPath = z.object({ name: z.string().min(1).max(100) });
export const devicePath = z.object({ id: z.string().regex(/^[0-9a-f]{12}$/, 'the id of a device') });

/** A parameter is text: read as a number here, so that the contract still says it is required or not as it is. */
export const afterQuery = z.object({
  after: z
    .string()
    .regex(/^\d{1,15}$/, 'a sequence number, 0 or more')
    .transform(Number)
    .optional(),
});
export const paperQuery = z.object({
  paper: z.enum(['a4', 'letter']).optional(),
  component: z
    .string()
    .max(120)
    .optional()
    .describe('one part, for a slip or a tag; all of them when absent'),
  size: z.enum(TAG_SIZES).optional().describe('of a tag, width by height in mm'),
  from: z
    .string()
    .regex(/^[1-9]\d?$/, 'the first label to print on, from 1')
    .transform(Number)
    .optional(),
  zone: z
    .string()
    .max(60)
    .refine(isZone, 'the IANA name of a time zone')
    .optional()
    .describe('whose clock the pages say, such as "Asia/Kolkata"; that of the server when absent'),
});

export const problem = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    issues: z.array(
      z.object({
        code: z.string(),
        at: z.string(),
        got: z.string(),
        wanted: z.string(),
        message: z.string(),
      }),
    ),
  })
  .openapi('Problem');

const cautions = z.array(z.object({ code: z.string(), message: z.string() }));

export const health = z.object({
  status: z.literal('ok'),
  version: z.string(),
  device: z.string().describe('the data directory as a writer, as entries name it'),
  lan: z.boolean(),
});

export const jobs = z.array(
  z.object({
    id: z.uuid(),
    title: z.string(),
    entries: z.int().positive(),
    opened: z.iso.datetime({ offset: true }).nullable(),
    last: sequence,
  }),
);

const opening = {
  id: z.uuid().optional().describe('settled by the client: sent twice, the job is opened once'),
  who: z.string().min(1).max(200).optional(),
  title: z.string().min(1).max(200).optional(),
  owner: z.string().max(200).optional(),
  story: z.string().max(20_000).optional(),
  spending_cap: z.number().nonnegative().optional(),
  currency: z.string().refine(isCurrency, 'a code of ISO 4217, such as EUR').optional(),
  due: z.string().max(60).optional(),
};
export const jobOpened = z.strictObject({
  ...opening,
  sheet: z.unknown().optional().describe('a spec sheet; see SpecSheet'),
  csv: z.string().min(1).optional().describe('a list of characteristics with a heading line'),
  outline: z
    .strictObject({
      layout: z.enum(LAYOUTS),
      cylinders: z.int(),
      mains: z.int(),
      title: z.string().min(1).max(200),
    })
    .optional(),
});
export const jobAnswer = z.object({ id: z.uuid(), title: z.string(), sheet: hash, cautions });

/** An entry by its envelope; the component `Entry` says its body too. */
const entry = envelopeSchema.loose();
export const entriesAnswer = z.object({ entries: z.array(entry), last: sequence });
export const appendedAnswer = z.object({
  added: z.array(z.uuid()),
  known: z.array(z.uuid()),
  reused: z
    .array(z.uuid())
    .describe('of the added: those whose id another entry of the job has; both are kept'),
});
export const entriesAppended = appendedAnswer.extend({ last: sequence });

export const parcel = z.strictObject({
  entries: z.array(z.unknown()).max(100_000).optional(),
  sheets: z
    .array(z.strictObject({ hash, json: z.unknown() }))
    .max(1000)
    .optional(),
});
export const hashAnswer = z.object({ hash });
export const importedAnswer = z.object({ job: z.uuid(), added: sequence, known: sequence });

export const calculators = z.array(z.object({ name: z.string(), sentence: z.string() }));
export const calculatorAnswer = z.object({
  name: z.string(),
  sentence: z.string(),
  formula: z.array(z.string()),
  range: z.string(),
  sources: z.array(z.string()),
  example: z.record(z.string(), z.unknown()),
  input: z.record(z.string(), z.unknown()).describe('JSON Schema 2020-12'),
  output: z.record(z.string(), z.unknown()).describe('JSON Schema 2020-12'),
});
export const computed = z.object({
  results: z.record(z.string(), z.object({ value: z.unknown(), unit: z.string().optional() })),
  cautions,
  sources: z.array(z.string()),
});

export const session = z.object({
  local: z.boolean().describe('at the desk itself'),
  lan: z.boolean(),
  addresses: z.array(z.string()).describe('where other devices find the bench'),
});
export const pairingCode = z.object({
  code: z.string().nullable(),
  expires: z.iso.datetime().nullable(),
});
export const pairingTry = z.object({ code: z.string(), name: z.string() });
export const paired = z.object({ device: z.string(), name: z.string() });
export const devices = z.array(z.object({ id: z.string(), name: z.string(), paired: z.iso.datetime() }));
export const directoryAnswer = z.object({ path: z.string(), device: z.string() });

export const anything = z.record(z.string(), z.unknown());
export const anyList = z.array(z.unknown());

/** Schemas that book publishes, as components of the contract: their inner references lead there. */
export function bookComponents(): Record<string, Record<string, unknown>> {
  const component = (name: string, schema: Readonly<Record<string, unknown>>): Record<string, unknown> => {
    const { $schema: _, ...rest } = schema;
    return JSON.parse(
      JSON.stringify(rest).replaceAll('"#/$defs/', `"#/components/schemas/${name}/$defs/`),
    ) as Record<string, unknown>;
  };
  return {
    Entry: component('Entry', entryJsonSchema()),
    SpecSheet: component('SpecSheet', specSheetJsonSchema()),
  };
}
