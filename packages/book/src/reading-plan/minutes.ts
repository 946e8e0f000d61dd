/** How long it takes to work with an instrument [min]: to get it out, clean, set and zero it, and for each reading. */
export interface Minutes {
  readonly setUp: number;
  readonly each: number;
}

/** Assumed throughout: common practice, no source. Nobody timed them in this shop, and every plan says so. */
const ASSUMED: Readonly<Record<string, Minutes>> = {
  micrometer: { setUp: 3, each: 1 },
  'telescoping gauge': { setUp: 4, each: 2 },
  'dial bore gauge': { setUp: 8, each: 1 },
  'inside micrometer': { setUp: 5, each: 2 },
  'depth micrometer': { setUp: 3, each: 1 },
  'feeler leaves': { setUp: 1, each: 2 },
  'straightedge and leaf': { setUp: 2, each: 2 },
  'dial indicator': { setUp: 8, each: 2 },
  'plastic gauging strip': { setUp: 5, each: 10 },
  calliper: { setUp: 1, each: 1 },
  'steel rule': { setUp: 1, each: 1 },
  'spring tester': { setUp: 5, each: 2 },
  'compression gauge': { setUp: 10, each: 3 },
  burette: { setUp: 10, each: 10 },
  scale: { setUp: 2, each: 1 },
  'degree wheel': { setUp: 25, each: 5 },
};
const OTHER: Minutes = { setUp: 5, each: 2 };
const BY_EYE: Minutes = { setUp: 0, each: 1 };

/** To go over to another part: to find it, clean it, lay it so that it can be read [min]; assumed. */
export const PART_MINUTES = 2;

/** @param type  of instrument; `undefined` for what is looked at */
export const minutesOf = (type: string | undefined): Minutes =>
  type === undefined ? BY_EYE : (ASSUMED[type] ?? OTHER);
