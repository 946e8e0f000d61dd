import type { Runners } from './case.ts';

export const LUBRICATION_RUNNERS: Runners = {};
