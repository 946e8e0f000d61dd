import type { Runners } from './case.ts';

export const FASTENER_RUNNERS: Runners = {};
