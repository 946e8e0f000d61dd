// The yardstick: the reference network under twelve running conditions, every clearance, the oil and the relief drawn.
import { readFileSync } from 'node:fs';
import { compiledNetwork, networkTrials, term, uncertain } from '@fettle/core';

export function good(outcome) {
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join('\n'));
  return outcome.value;
}

export const FILE = JSON.parse(
  readFileSync(new URL('../conformance/networks/six-cylinder-reference.json', import.meta.url), 'utf8'),
);

export const RPM = [700, 1500, 3000, 5500];
export const CELSIUS = [60, 90, 120];
export const RUNNING = RPM.flatMap((rpm) =>
  CELSIUS.map((t) => ({ speed: (rpm * Math.PI) / 30, temperature: t + 273.15 })),
);

/** Standard uncertainty of every clearance that is drawn [m]. */
export const SPREADS = FILE.elements.flatMap(({ id }) => {
  if (/^(main|rod)-/.test(id)) return [{ id, key: 'radial_clearance', u: 2.5e-6 }];
  if (/^cam-/.test(id)) return [{ id, key: 'radial_clearance', u: 4e-6 }];
  return id.endsWith('-slip') ? [{ id, key: 'gap', u: 6e-6 }] : [];
});
export const VISCOSITY_U = 0.03;
export const PRELOAD_U = 0.02;

const element = (id) => FILE.elements.find((e) => e.id === id);

export const DRAWN = {
  parameters: Object.fromEntries(
    SPREADS.map(({ id, key, u }) => [`${id}.${key}`, uncertain(element(id)[key], term(`${id}.${key}`, u))]),
  ),
  viscosityShare: uncertain(1, term('viscosity', VISCOSITY_U)),
  reliefPreloadShare: uncertain(1, term('preload', PRELOAD_U)),
};

export const NETWORK = good(compiledNetwork(FILE));

export const referenceTrials = (seed, first, trials) =>
  good(networkTrials(NETWORK, { drawn: DRAWN, running: RUNNING, seed, first, trials }));
