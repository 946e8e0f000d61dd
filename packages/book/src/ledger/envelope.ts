import * as z from 'zod';

/**
 * The envelope around every entry.
 * `prev` chains one device's entries, so that a torn-out page is noticed; `seen` says what its writer knew.
 */
export const envelopeSchema = z.strictObject({
  id: z.uuid().describe('UUID version 7'),
  job: z.uuid(),
  device: z.string().min(1).max(100).describe('one writer: a data directory or a browser profile'),
  n: z.int().positive().describe('1 for the device’s first entry in this job'),
  prev: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .nullable()
    .describe('SHA-256 of the RFC 8785 form of this device’s entry n − 1; null for its first'),
  seen: z.record(z.string(), z.int().nonnegative()).describe('per device, the last n its writer had folded'),
  tick: z.int().positive().describe('1 + the greatest tick its writer had seen'),
  at: z.iso.datetime({ offset: true }).describe('the device’s clock, for people; it never decides'),
  who: z.string().min(1).max(200),
  kind: z.string().min(1).max(60),
  v: z.int().positive(),
  body: z.record(z.string(), z.unknown()),
});
