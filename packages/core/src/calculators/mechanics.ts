import type { Calculator } from '../catalogue/calculator.ts';
import { BOBWEIGHT } from './bobweight.ts';
import { CLEAN_UP } from './clean-up.ts';
import { COMPRESSION_SPREAD } from './compression-spread.ts';
import { CYLINDER } from './cylinder.ts';
import { END_SEAL } from './end-seal.ts';
import { FASTENER_STRENGTH } from './fastener-strength.ts';
import { GUIDE_ROCK } from './guide-rock.ts';
import { HEAD_SKIM } from './head-skim.ts';
import { INTERFERENCE_FIT } from './interference-fit.ts';
import { LIMITS_AND_FITS } from './limits-and-fits.ts';
import { PERMISSIBLE_UNBALANCE } from './permissible-unbalance.ts';
import { PISTON_MOTION } from './piston-motion.ts';
import { PRELOAD } from './preload.ts';
import { RING_GAP } from './ring-gap.ts';
import { SHIMS } from './shims.ts';
import { THREAD } from './thread.ts';
import { THREAD_STRIP } from './thread-strip.ts';
import { WRENCH_ADAPTER } from './wrench-adapter.ts';

export const MECHANICS_CALCULATORS: readonly Calculator[] = [
  THREAD,
  FASTENER_STRENGTH,
  PRELOAD,
  THREAD_STRIP,
  WRENCH_ADAPTER,
  INTERFERENCE_FIT,
  LIMITS_AND_FITS,
  CYLINDER,
  PISTON_MOTION,
  END_SEAL,
  CLEAN_UP,
  GUIDE_ROCK,
  RING_GAP,
  HEAD_SKIM,
  SHIMS,
  COMPRESSION_SPREAD,
  BOBWEIGHT,
  PERMISSIBLE_UNBALANCE,
];
