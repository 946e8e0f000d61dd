import type { InstrumentType } from './instrument-type.ts';
import { LENGTH_TOOLS } from './length-tools.ts';
import { OTHER_TOOLS } from './other-tools.ts';

/** Every type of tool a budget can be built for, by its name. */
export const INSTRUMENT_TYPES: ReadonlyMap<string, InstrumentType> = new Map(
  [...LENGTH_TOOLS, ...OTHER_TOOLS].map((one) => [one.type, one]),
);
