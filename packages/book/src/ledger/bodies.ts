import * as z from 'zod';

/**
 * What each kind of entry says, version 1. Quantities are kept as they were said, value and unit in one string:
 * they are converted once, on the way into computing, and shown back in the unit they were read in.
 */

const id = z
  .string()
  .regex(/^[a-z0-9][a-z0-9.-]*$/, 'an id is lower-case letters, digits, dots and hyphens')
  .max(120);
const said = z.string().min(1).max(200);
const prose = z.string().max(20_000);
const entryId = z.uuid();
const hash = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 in lower-case hexadecimal');
const place = z.record(z.string().max(60), z.string().max(60));

/** The gate as it was seen when somebody closed a cover or went past a hold. */
export const gateSeen = z.strictObject({
  state: z.enum(['open', 'held']),
  reasons: z.array(z.strictObject({ code: z.string(), about: z.string(), message: z.string() })),
  entries: z.array(entryId).describe('the entries on which the gate rested'),
});
export type GateSeen = z.infer<typeof gateSeen>;

/** A question the program asked about what was said, and what became of it. */
const asked = z.strictObject({
  code: z.string(),
  question: z.string(),
  first_said: said.describe('what was said before the question'),
});
export type Asked = z.infer<typeof asked>;

const temperature = z.strictObject({
  part: said.optional().describe('of the part itself, not of the room'),
  instrument: said.optional(),
});

/** Leaves laid on one another, each as said; their thickness together stands beside them. */
const leafStack = z.array(said).min(2).max(6);

const instrumentUncertainty = z.strictObject({
  expanded: said.describe('U: a quantity, or a share of the reading such as "3 %"'),
  coverage: z.number().positive().default(2).describe('k, with U = k u'),
  common_share: z
    .number()
    .min(0)
    .max(1)
    .default(0.5)
    .describe('share of the variance common to all readings of this instrument'),
  own_dof: z
    .number()
    .positive()
    .optional()
    .describe('degrees of freedom of each reading’s own part; absent: taken as known'),
});

/** One line of the budget an uncertainty was built from. */
const budgetTerm = z.strictObject({
  what: said,
  amount: said.describe('a quantity, or a share of the reading such as "4 %"'),
  shape: z.enum(['normal', 'rectangular', 'triangular', 'arcsine']),
  divisor: z.number().positive().describe('the amount over this is a standard uncertainty'),
  share: z
    .enum(['common', 'own'])
    .describe('the same in all readings of the instrument, or each reading’s own'),
  of: id.optional().describe('the instrument it was set in or is read by, whose common error this is'),
  dof: z.number().positive().optional(),
  source: prose.describe('where the figure comes from; “common practice, no source” where it has none'),
});
export type BudgetLine = z.infer<typeof budgetTerm>;

/** What an offer brings back within limits. */
const restored = z.strictObject({
  characteristic: id,
  at: place.optional().describe('axes left out mean all their places'),
  value: said.optional().describe('what it will be; absent: within its limits for new parts'),
  doubt: said
    .optional()
    .describe('U of that value at about 95 %; absent: anywhere within the limits for new parts'),
  judged_by: z
    .enum(['new', 'wear'])
    .default('new')
    .describe('the limits that will judge it: those for wear where it runs on a used part'),
  size: z.string().max(60).optional().describe('a size of the sheet that moves its limits'),
});

/** Needs, and how many of each one unit brings. */
const covered = z
  .array(
    z.strictObject({
      need: id,
      count: z.int().positive(),
      size: z.string().max(60).optional().describe('a size of the sheet; standard when absent'),
    }),
  )
  .max(200);

export const BODIES = {
  'job-opened': z.strictObject({
    title: z.string().min(1).max(200),
    owner: z.string().max(200).optional(),
    story: prose.optional(),
    spending_cap: z.number().nonnegative().optional(),
    currency: z
      .string()
      .regex(/^[A-Z]{3}$/, 'a code of ISO 4217, such as EUR')
      .optional()
      .describe('of every sum in the job, by ISO 4217'),
    due: z
      .string()
      .max(60)
      .optional()
      .describe('a date such as "2026-06-10", or a time counted from this entry, such as "seven weeks"'),
    example: z
      .literal(true)
      .optional()
      .describe('a worked example: its time stands at the last entry of the device that opened it'),
  }),
  'spec-adopted': z.strictObject({ sheet: hash, title: z.string().max(200) }),
  'characteristic-amended': z.strictObject({
    characteristic: id,
    change: z
      .record(z.string(), z.unknown())
      .describe('fields of the characteristic as in the spec sheet; each replaces the sheet’s'),
    why: prose,
  }),
  'instrument-declared': z.strictObject({
    instrument: id,
    name: z.string().max(200),
    type: z.string().max(60).describe('micrometer, dial bore gauge, feeler leaves …'),
    uncertainty: instrumentUncertainty,
    trust: z
      .enum(['stated', 'default', 'built'])
      .describe('stated by its owner; the program’s default; built from what its owner said of it'),
    set_in: id
      .optional()
      .describe('the instrument it was set in or is read by: its common error is in these readings too'),
    budget: z.array(budgetTerm).max(40).optional().describe('what the uncertainty was built from'),
    settings: z
      .record(z.string().max(40), said)
      .optional()
      .describe('what its owner said of it, from which the budget was built'),
    study: entryId.optional().describe('the repeat-study that gave each reading’s own part'),
    leaves: z.array(said).optional().describe('feeler leaves owned'),
    note: prose.optional(),
  }),
  'instrument-checked': z.strictObject({
    instrument: id,
    against: said.describe('the standard: a ring, a gauge block, zero'),
    read: said,
    good: z
      .boolean()
      .describe(
        'within the limit; where it is not, readings since the last good check are to be taken again',
      ),
    limit: said.optional().describe('how far it may be off; absent: its own U'),
    when: z.enum(['before', 'after']).optional().describe('before or after the readings of a sitting'),
    note: prose.optional(),
  }),
  'repeat-study': z.strictObject({
    instrument: id,
    what: z.string().max(500).describe('what was read over and over'),
    readings: z
      .array(
        z.strictObject({
          part: z.string().max(60).optional(),
          occasion: z.string().max(60).optional().describe('an occasion, or a person'),
          value: said,
        }),
      )
      .min(2)
      .max(500)
      .describe('in the order they were taken'),
    note: prose.optional(),
  }),
  'readings-corrected': z.strictObject({
    check: entryId.describe('the failed check that reopened them'),
    add: said.describe('added to what was read'),
    doubt: said.describe('U of that correction at about 95 %'),
    why: z.string().min(1).max(20_000),
  }),
  'part-entered': z.strictObject({
    part: id,
    name: z.string().max(200),
    condition: z.enum(['used', 'new', 'machined']),
    size: z.string().max(60).optional().describe('a size named in the spec sheet, such as ".030 over"'),
    mark: z.string().max(200).optional(),
    note: prose.optional(),
  }),
  'part-fitted': z.strictObject({
    position: id,
    part: id.nullable().describe('null: taken out'),
    way: z.string().max(200).optional().describe('which way round'),
  }),
  'part-reworked': z.strictObject({
    part: id,
    what: z.string().max(500),
    condition: z.enum(['machined', 'used']).default('machined'),
    size: z.string().max(60).optional(),
    by: z.string().max(200).optional(),
    blasted: z.literal(true).optional().describe('grit may be in every passage'),
  }),
  'part-marked': z.strictObject({
    part: id,
    mark: z.string().max(200).optional().describe('what is stamped, scratched or tied to it'),
    home: id.optional().describe('the position it belongs in and nowhere else'),
    partners: z.array(id).max(20).optional().describe('parts it was made or run in with'),
    beside: z
      .record(id, id)
      .optional()
      .describe('the position a partner must stand in, by partner, where its own mark names no home'),
    way: z.string().max(200).optional().describe('which way round it must stand'),
    note: prose.optional(),
  }),
  'part-cleaned': z.strictObject({
    part: id,
    state: entryId.describe('the part-entered or part-reworked entry of the state that was cleaned'),
    opened: z.boolean().describe('every plug and passage opened'),
    washed: z.boolean(),
    blown: z.boolean(),
    seen_through: z.boolean().describe('light seen through every passage'),
    note: prose.optional(),
  }),
  'opening-blocked': z.strictObject({
    opening: id,
    name: z.string().max(200).optional(),
    by: z.enum(['plug', 'tape', 'rag', 'cap', 'other']),
    count: z.int().positive().max(1000).default(1),
    note: prose.optional(),
  }),
  'opening-cleared': z.strictObject({
    opening: id,
    name: z.string().max(200).optional(),
    by: z.enum(['plug', 'tape', 'rag', 'cap', 'other']),
    count: z.int().positive().max(1000).default(1),
    note: prose.optional(),
  }),
  'joint-state': z.strictObject({
    joint: id.describe('a fastener of the sheet, or any joint'),
    name: z.string().max(200).optional(),
    place: place.optional(),
    state: z.enum(['loose', 'dry', 'finger-tight', 'curing', 'tight', 'cured']),
    started: z.iso
      .datetime()
      .optional()
      .describe('when the sealant went on; the clock of the entry when absent'),
    cures_after: said.optional().describe('such as "24 h", from the start'),
    close_within: said.optional().describe('such as "10 min": the open time of a sealant'),
    product: z.string().max(200).optional(),
    note: prose.optional(),
  }),
  reading: z
    .strictObject({
      characteristic: id,
      state: entryId
        .optional()
        .describe('the part-entered or part-reworked entry; absent where no part is concerned'),
      mates: z.array(entryId).optional().describe('states of the other parts this reading also rests on'),
      place: place.optional(),
      measurand: z.string().max(60).optional(),
      instrument: id,
      value: said.optional(),
      goes: said.optional().describe('the largest feeler leaf that goes'),
      stops: said.optional().describe('the smallest feeler leaf that does not'),
      goes_stack: leafStack.optional().describe('the leaves laid together that make up the one that goes'),
      stops_stack: leafStack
        .optional()
        .describe('the leaves laid together that make up the one that does not'),
      drags: z.literal(true).optional().describe('the leaf that goes drags: it fills the gap'),
      temperature: temperature.optional(),
      asked: asked.optional(),
      note: prose.optional(),
    })
    .refine((r) => (r.value === undefined) !== (r.goes === undefined && r.stops === undefined), {
      message: 'a reading has either a value, or a leaf that goes, or one that stops, or both leaves',
    })
    .refine((r) => r.drags === undefined || r.goes !== undefined, {
      message: 'a leaf that drags is one that goes',
    })
    .refine(
      (r) =>
        (r.goes_stack === undefined || r.goes !== undefined) &&
        (r.stops_stack === undefined || r.stops !== undefined),
      { message: 'a stack of leaves stands beside its thickness' },
    ),
  seen: z.strictObject({
    characteristic: id,
    state: entryId.optional(),
    place: place.optional(),
    found: z.string().min(1).max(500),
    as_wanted: z.boolean(),
    note: prose.optional(),
  }),
  'gauge-reading': z.strictObject({
    pressure: said,
    speed: said,
    oil: z.string().max(60).optional(),
    temperature: said.optional(),
    instrument: id,
    when: z.enum(['as-found', 'start-up', 'break-in', 'later']),
    note: prose.optional(),
  }),
  'torque-pass': z.strictObject({
    fastener: id,
    place: place.optional(),
    torque: said,
    pass: z.int().positive(),
    of: z.int().positive(),
    condition: z.string().max(60).optional(),
    instrument: id.optional(),
    asked: asked.optional(),
    note: prose.optional(),
  }),
  'torque-decided': z.strictObject({
    passes: z
      .array(entryId)
      .min(1)
      .max(500)
      .describe(
        'passes that stand although something speaks against them: another condition, a cover opened',
      ),
    why: z.string().min(1).max(20_000),
  }),
  disposition: z.strictObject({
    part: id,
    decision: z.enum(['reuse', 'machine', 'replace']),
    size: z.string().max(60).optional(),
    why: prose,
  }),
  order: z.strictObject({
    item: z.string().min(1).max(200),
    part: id.optional(),
    supplier: z.string().max(200).optional(),
    number: z.string().max(200).optional(),
    price: z.number().nonnegative().optional(),
    lead_days: z.number().nonnegative().optional(),
    supply: id.optional().describe('the supply or the repair on offer that was taken by it'),
    count: z.int().positive().optional().describe('how many of it; one when absent'),
    note: prose.optional(),
  }),
  'repair-offered': z.strictObject({
    offer: id.describe('a later entry with the same id takes the place of this one'),
    name: z.string().min(1).max(200),
    price: z.number().nonnegative().describe('in the money of the job'),
    lead_time: said.optional().describe('such as "2 weeks" or "10 days", counted from when it can begin'),
    soonest: said.optional().describe('the lead time if all goes well'),
    latest: said.optional().describe('the lead time that is not exceeded unless something breaks'),
    way: z.enum(['machine', 'replace']).optional().describe('what it does to the parts it restores'),
    covers: covered.optional().describe('needs that its price covers, such as pistons with a rebore'),
    restores: z.array(restored).max(200).default([]),
    repairs: z
      .array(z.strictObject({ repair: said, value: said.optional(), doubt: said.optional() }))
      .max(50)
      .default([])
      .describe('repairs of the oil circuit brought to what it calls repaired, or to a value of their own'),
    oil: z.string().max(60).optional().describe('another grade of the sheet, filled instead'),
    needs: z
      .array(id)
      .max(50)
      .default([])
      .describe('offers without which this one is no use; it begins after them'),
    excludes: z.array(id).max(50).default([]).describe('offers that cannot be taken beside this one'),
    trust: z.enum(['quoted', 'assumed']).describe('the price and the time: said by who offers, or a guess'),
    supplier: z.string().max(200).optional(),
    number: z.string().max(200).optional(),
    note: prose.optional(),
  }),
  'supply-offered': z.strictObject({
    supply: id.describe('a later entry with the same id takes the place of this one'),
    name: said,
    covers: covered
      .min(1)
      .describe('a need is a position of the sheet without its place, an offer, or one that was wanted'),
    price: z.number().nonnegative().describe('of one, in the money of the job'),
    supplier: said.optional(),
    number: said.optional().describe('as marked'),
    lead_time: said.optional().describe('such as "2 weeks"'),
    soonest: said.optional().describe('the lead time if all goes well'),
    latest: said.optional().describe('the lead time that is not exceeded unless something breaks'),
    most: z.int().positive().optional().describe('how many can be had'),
    substitute_for: said.optional().describe('the supply or number it stands in for'),
    trust: z.enum(['quoted', 'assumed']).describe('the price and the time: said by who offers, or a guess'),
    note: prose.optional(),
  }),
  'supply-wanted': z.strictObject({
    need: id.describe('a later entry with the same id takes the place of this one'),
    name: said,
    count: z.int().nonnegative().describe('0: no longer wanted'),
    why: prose.optional(),
  }),
  'terms-given': z.strictObject({
    party: said.describe('a supplier or a shop by name, or "owner"'),
    hour: z.number().nonnegative().optional().describe('what an hour of its work is worth'),
    carriage: z.number().nonnegative().optional().describe('charged once, whatever is bought there'),
    note: prose.optional(),
  }),
  'task-planned': z.strictObject({
    task: id.describe('a later entry with the same id takes the place of this one'),
    name: said,
    takes: said.describe('most likely, such as "3 days"'),
    soonest: said.optional().describe('if all goes well'),
    latest: said.optional().describe('not exceeded unless something breaks'),
    needs: z.array(id).max(100).optional().describe('tasks, offers and supplies that come before it'),
    after_all: z.boolean().optional().describe('begins when everything bought and machined is there'),
    began: z.iso.datetime().optional().describe('when it was begun; what it takes is counted from then'),
    done: z.boolean().optional(),
    note: prose.optional(),
  }),
  receipt: z.strictObject({ order: entryId, part: id.optional(), note: prose.optional() }),
  'cover-closed': z.strictObject({ cover: id, gate: gateSeen, why: prose.optional() }),
  'cover-opened': z.strictObject({ cover: id, why: prose }),
  'hold-passed': z.strictObject({ cover: id, why: z.string().min(1).max(20_000), gate: gateSeen }),
  photo: z.strictObject({
    sha256: hash,
    media: z.string().max(100),
    about: z.string().max(200).optional(),
    caption: prose.optional(),
  }),
  note: z.strictObject({ text: z.string().min(1).max(20_000), about: z.string().max(200).optional() }),
  strike: z.strictObject({ entry: entryId, why: z.string().min(1).max(20_000) }),
} as const;

export type Kind = keyof typeof BODIES;
export type Body<K extends Kind> = z.infer<(typeof BODIES)[K]>;
/** A body as it may be written: what has a default may be left out. */
export type WrittenBody<K extends Kind> = z.input<(typeof BODIES)[K]>;
