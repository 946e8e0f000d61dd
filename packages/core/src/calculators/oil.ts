import type { Calculator } from '../catalogue/calculator.ts';
import { ANNULUS_LEAK } from './annulus-leak.ts';
import { COIL_SPRING } from './coil-spring.ts';
import { DRY_LIFT } from './dry-lift.ts';
import { GEAR_PUMP } from './gear-pump.ts';
import { GROOVE_FEED } from './groove-feed.ts';
import { HOLE_FEED } from './hole-feed.ts';
import { JOURNAL_BEARING } from './journal-bearing.ts';
import { OIL_GRADE } from './oil-grade.ts';
import { OIL_NETWORK } from './oil-network.ts';
import { OIL_VISCOSITY } from './oil-viscosity.ts';
import { ORIFICE } from './orifice.ts';
import { PIPE_LOSS } from './pipe-loss.ts';
import { RELIEF_VALVE } from './relief-valve.ts';
import { VISCOSITY_INDEX } from './viscosity-index.ts';

export const OIL_CALCULATORS: readonly Calculator[] = [
  OIL_VISCOSITY,
  VISCOSITY_INDEX,
  OIL_GRADE,
  GROOVE_FEED,
  HOLE_FEED,
  ANNULUS_LEAK,
  GEAR_PUMP,
  DRY_LIFT,
  ORIFICE,
  PIPE_LOSS,
  COIL_SPRING,
  RELIEF_VALVE,
  JOURNAL_BEARING,
  OIL_NETWORK,
];
