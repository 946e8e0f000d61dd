import type { Register } from '../registration.ts';
import { registerExport, registerImport } from './archive.ts';
import { registerBasket } from './basket.ts';
import { registerCalc } from './calc.ts';
import { registerCheck } from './check.ts';
import { registerDecide } from './decide.ts';
import { registerDevices } from './devices.ts';
import { registerDiagnose } from './diagnose.ts';
import { registerFilm } from './film.ts';
import { registerFirstStart } from './first-start.ts';
import { registerGate } from './gate.ts';
import { registerGauge } from './gauge.ts';
import { registerJobs } from './jobs.ts';
import { registerClean, registerJoint, registerMark, registerOpening } from './keeping.ts';
import { registerLog } from './log.ts';
import { registerMap } from './map.ts';
import { registerMatch } from './match.ts';
import { registerMorning } from './morning.ts';
import { registerNew } from './new.ts';
import { registerNote } from './note.ts';
import { registerOffer } from './offer.ts';
import { registerOil } from './oil.ts';
import { registerOrders } from './orders.ts';
import { registerParts } from './parts.ts';
import { registerPlan } from './plan.ts';
import { registerPrime } from './prime.ts';
import { registerPrinted } from './printed.ts';
import { registerRead } from './read.ts';
import { registerSay } from './say.ts';
import { registerSeen } from './see.ts';
import { registerServe } from './serve.ts';
import { registerSizes } from './sizes.ts';
import { registerSlip } from './slip.ts';
import { registerSpec } from './spec.ts';
import { registerStack } from './stack.ts';
import { registerStrike } from './strike.ts';
import { registerTags } from './tags.ts';
import { registerTimeLine } from './timeline.ts';
import { registerToday } from './today.ts';
import { registerTools } from './tools.ts';
import { registerTorque } from './torque.ts';
import { registerWhy } from './why.ts';

/** Every command, in the order in which help lists them: the order of a job. */
export const COMMANDS: readonly Register[] = [
  registerNew,
  registerJobs,
  registerSpec,
  registerTools,
  registerParts,
  registerMark,
  registerClean,
  registerOpening,
  registerJoint,
  registerRead,
  registerSay,
  registerSeen,
  registerGauge,
  registerTorque,
  registerDecide,
  registerMatch,
  registerSizes,
  registerStack,
  registerOffer,
  registerBasket,
  registerOrders,
  registerTimeLine,
  registerSlip,
  registerNote,
  registerCheck,
  registerWhy,
  registerToday,
  registerMap,
  registerOil,
  registerFilm,
  registerDiagnose,
  registerPlan,
  registerPrime,
  registerFirstStart,
  registerGate,
  registerMorning,
  registerStrike,
  registerLog,
  registerPrinted,
  registerTags,
  registerExport,
  registerImport,
  registerServe,
  registerDevices,
  registerCalc,
];
