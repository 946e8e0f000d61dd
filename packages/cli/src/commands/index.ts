import type { Register } from '../registration.ts';
import { registerExport, registerImport } from './archive.ts';
import { registerCalc } from './calc.ts';
import { registerCheck } from './check.ts';
import { registerEntering } from './entering.ts';

import { registerGate } from './gate.ts';
import { registerJobs } from './jobs.ts';
import { registerLog } from './log.ts';
import { registerNew } from './new.ts';
import { registerOil } from './oil.ts';
import { registerParts } from './parts.ts';
import { registerRead } from './read.ts';
import { registerSheet } from './sheet.ts';
import { registerStrike } from './strike.ts';
import { registerTools } from './tools.ts';
import { registerWhy } from './why.ts';

/** Every command, in the order in which help lists them: the order of a job. */
export const COMMANDS: readonly Register[] = [
  registerNew,
  registerJobs,
  registerSheet,
  registerTools,
  registerParts,
  registerRead,
  registerEntering,
  registerCheck,
  registerWhy,
  registerOil,
  registerGate,
  registerStrike,
  registerLog,
  registerExport,
  registerImport,
  registerCalc,
];
