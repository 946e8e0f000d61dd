import type { Runners } from './case.ts';

export const METROLOGY_RUNNERS: Runners = {};
