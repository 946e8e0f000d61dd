import type { Runners } from './case.ts';
import { CIRCUIT_RUNNERS } from './circuit.ts';
import { FILM_RUNNERS } from './films.ts';
import { OIL_PROPERTY_RUNNERS } from './oil-properties.ts';

export const LUBRICATION_RUNNERS: Runners = { ...OIL_PROPERTY_RUNNERS, ...FILM_RUNNERS, ...CIRCUIT_RUNNERS };
