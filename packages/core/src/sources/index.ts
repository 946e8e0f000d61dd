import { CRANK_SOURCES } from './crank.ts';
import { LEDGER_SOURCES } from './ledger.ts';
import { MECHANICS_SOURCES } from './mechanics.ts';
import { METROLOGY_SOURCES } from './metrology.ts';
import { OIL_SOURCES } from './oil.ts';
import { PRIMING_SOURCES } from './priming.ts';
import type { Sources } from './source.ts';

/** Every published source by the key that formulas and calculators name. */
export const SOURCES: Sources = {
  ...LEDGER_SOURCES,
  ...METROLOGY_SOURCES,
  ...OIL_SOURCES,
  ...CRANK_SOURCES,
  ...MECHANICS_SOURCES,
  ...PRIMING_SOURCES,
};
