import type { Sources } from './source.ts';

const DERIVED = 'memory-certain; derived again and checked by another method in the tests';

/** Air in a dry pump, oil climbing to it. */
export const PRIMING_SOURCES: Sources = {
  sutherland: {
    title: 'Viscosity of gases after Sutherland (1893), constants for air',
    checked: 'memory-certain; within 0.7 % of a printed table of air, 250 to 400 K',
  },
  'dry-pump-balance': {
    title: 'Balance of isothermal air swept by a pump and leaking back through laminar slots',
    checked: DERIVED,
  },
  'crane-tp-410': {
    title: 'Flow of Fluids through Valves, Fittings and Pipe, Crane TP-410',
    where: 'example 7-32, net positive suction head',
    checked: 'retrieved as solved in a public fluids library; its figure reproduced',
  },
  'evacuation-time': {
    title: 'Time to evacuate a volume at constant swept rate',
    checked: 'retrieved; two printed worked examples reproduced',
  },
  'washburn-with-gravity': {
    title: 'The Dynamics of Capillary Flow, Washburn 1921, with gravity in place of capillary pressure',
    checked: DERIVED,
  },
  'inlet-depression-practice': {
    title: 'Depression at a gear pump’s inlet kept under about 5 inHg (17 kPa): common practice, no source',
    checked: 'from memory; air dissolved in oil comes out below the pressure of the air outside',
  },
};
