import type { Sources } from './source.ts';

/** Loads of a crank, the journal's path, heat of its films. */
export const CRANK_SOURCES: Sources = {
  'cylinder-cycle': {
    title: 'Internal Combustion Engine Fundamentals',
    edition: 'Heywood, 1988',
    where: 'Wiebe’s curve of heat release, constant-exponent first law; typical values',
    checked:
      'forms memory-certain, a = 5 and m = 2 memory-certain; heat, duration and charge temperature are typical values, assumed',
  },
  'rod-two-masses': {
    title: 'Slider-crank with the rod as two points of mass',
    where: 'Norton, Design of Machinery; Heywood for the motion',
    checked: 'memory-certain; turning moment over a cycle equals the area of the diagram in the tests',
  },
  'engine-mass-table': {
    title: 'Design of Automotive Engines',
    edition: 'Kolchin and Demidov, 1984',
    where: 'masses of piston and rod over piston area, shares of the rod’s ends',
    checked: 'memory-likely; a stand-in where nothing was weighed',
  },
  'mobility-method': {
    title: 'Dynamically Loaded Journal Bearings: Mobility Method of Solution',
    edition: 'Booker, 1965',
    where: 'the method; its short bearing with half a film',
    checked:
      'memory-certain in form; the mobility is derived again here and held to the steady solution, to rotating loads and to the closed squeeze time. A land of finite length has its mobility from our own solution of the squeezed film, held to the short bearing, to bounds of the long one and to steady films; no published fit of finite mobilities could be had. No published load diagram could be had, so no connecting-rod benchmark is reproduced',
  },
  'film-heat': {
    title: 'Hydrodynamic plain journal bearings: heat balance',
    edition: 'ISO 7902-1',
    where: 'heat carried by the oil, effective temperature as the mean of in and out, 1.8e6 J/(m³·K)',
    checked: 'retrieved for the heat capacity, memory-certain for the balance',
  },
  petroff: {
    title: 'Friction of a concentric film, Petroff (1883)',
    where: 'law of the torque',
    checked: 'memory-certain',
  },
};
