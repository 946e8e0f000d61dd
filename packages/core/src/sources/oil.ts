import type { Sources } from './source.ts';

const FORM_AND_NUMBERS = 'retrieved; printed or recomputed numbers reproduced in the tests';
const DERIVED = 'memory-certain; derived again and checked by another method in the tests';

/** Oil, its flow through films and holes, the pump, the relief valve and its spring, the whole circuit. */
export const OIL_SOURCES: Sources = {
  'astm-d341': {
    title: 'Viscosity-Temperature Equations and Charts for Liquid Petroleum Products',
    edition: 'ASTM D341, form of 2017 on',
    where: 'equations for Z and its inverse',
    checked: FORM_AND_NUMBERS,
  },
  'astm-d2270': {
    title: 'Calculating Viscosity Index from Kinematic Viscosity at 40 °C and 100 °C',
    edition: 'ASTM D2270 / ISO 2909',
    where: 'Table 1, procedures A and B, worked examples',
    checked:
      'retrieved as figures in a public chemical-engineering library; the standard’s examples reproduced',
  },
  'sae-j300': {
    title: 'Engine Oil Viscosity Classification',
    edition: 'SAE J300, table of January 2015',
    where: 'Table 1',
    checked: 'retrieved as reprints; the paid text was not seen; 8 and 12 from memory-certain',
  },
  vogel: { title: 'Three-constant viscosity equation of Vogel (1921)', checked: 'memory-certain' },
  'seireg-dandage': {
    title: 'Empirical design procedure for the thermohydrodynamic behaviour of journal bearings',
    edition: 'Seireg and Dandage, 1982',
    checked: 'retrieved as constants in an open machine-design library; typical oils, not grade limits',
  },
  'api-mpms-11-1': {
    title: 'Temperature and Pressure Volume Correction Factors',
    edition: 'API MPMS chapter 11.1 / ASTM D1250',
    where: 'lubricating oils, K0 = 0',
    checked: 'K at 60 °F retrieved, at 15 °C memory-certain (1.8 times it)',
  },
  'naca-1157': {
    title: 'Analysis of Short Journal Bearings',
    edition: 'DuBois and Ocvirk, NACA report 1157, 1953',
    checked: 'memory-certain; a printed example reproduced, compared with a finite solution',
  },
  reynolds: {
    title: 'On the theory of lubrication and its application to Mr Beauchamp Tower’s experiments',
    edition: 'Reynolds, 1886',
    where: 'equation of the film; his condition at rupture as used by the tables below',
    checked:
      'memory-certain; solved by finite volumes and held to two published tables and to a far finer grid',
  },
  'raimondi-boyd': {
    title: 'A Solution for the Finite Journal Bearing and its Application to Analysis and Design',
    edition: 'Raimondi and Boyd, Trans. ASLE 1, 1958',
    where: 'full bearing with film rupture',
    checked: 'retrieved as a transcription, every row kept is reproduced; the original was not seen',
  },
  'khonsari-booser': {
    title: 'Applied Tribology',
    edition: 'Khonsari and Booser',
    where: 'Table 8.6',
    checked: 'retrieved as a transcription, every row kept is reproduced',
  },
  'jakobsson-floberg': {
    title: 'The finite journal bearing, considering vaporization',
    edition: 'Jakobsson and Floberg, 1957; Olsson, 1965',
    where: 'conditions at rupture and reformation that conserve mass',
    checked: 'memory-certain; mass balance and the limits of high supply pressure tested',
  },
  'elrod-adams': {
    title: 'A computer program for cavitation and starvation problems',
    edition: 'Elrod and Adams, 1974',
    where: 'one equation for full and ruptured film, fill in place of pressure',
    checked: 'memory-certain; the form used here is that of pressure and shortage, never both',
  },
  'judice-pires': {
    title:
      'A block principal pivoting algorithm for large-scale strictly monotone linear complementarity problems',
    edition: 'Júdice and Pires, 1994',
    checked: 'memory-likely as a reference; the method is checked by what it solves',
  },
  someya: {
    title: 'Journal-Bearing Databook',
    edition: 'Someya (editor), 1989',
    where: 'two-axial-groove bearing, pages 14 and 17',
    checked:
      'retrieved as a transcription; its groove is not stated there, 10° and all but the edges is assumed',
  },
  trumpler: {
    title: 'Design of Film Bearings',
    edition: 'Trumpler, 1966, as given in Shigley, section 12-14',
    where: 'criteria for steady load',
    checked: 'retrieved',
  },
  'vdi-2204': {
    title: 'Design of plain bearings',
    edition: 'VDI 2204',
    where: 'guide value of relative clearance',
    checked: 'memory-certain',
  },
  'shigley-12-15': {
    title: "Shigley's Mechanical Engineering Design",
    edition: '9th edition',
    where: 'section 12-7, equation 12-15',
    checked: 'retrieved; its constants 8.3 and 9.70 derived again',
  },
  'fritsch-carlson': {
    title: 'Monotone Piecewise Cubic Interpolation',
    edition: 'Fritsch and Carlson, 1980',
    checked: 'memory-certain; shown in the tests not to overshoot',
  },
  'annular-gap': {
    title: 'Laminar flow along a thin eccentric annular gap',
    where: 'Fox and McDonald, example 8.1; Massey',
    checked: FORM_AND_NUMBERS,
  },
  'shigley-12-22': {
    title: "Shigley's Mechanical Engineering Design",
    edition: '9th edition',
    where: 'equation 12-22, pressure-fed bearings',
    checked: 'retrieved; equal to the form of ISO 7902',
  },
  'iso-7902-1': {
    title: 'Hydrodynamic plain journal bearings: calculation',
    edition: 'ISO 7902-1',
    where: 'side flow of a 360° bearing',
    checked: 'memory-certain; within 1.2 % of a finite table',
  },
  'iso-7902-2': {
    title: 'Hydrodynamic plain journal bearings: functions',
    edition: 'ISO 7902-2',
    where: 'lubricant hole, pocket, half groove',
    checked:
      'hole retrieved; pocket and half-groove prefactors memory-likely; exact theory gives 6 to 11 % more for holes',
  },
  'hole-in-strip': { title: 'Potential flow of a small source in a strip', checked: DERIVED },
  'orifice-equation': {
    title: 'Flow through a sharp-edged hole',
    where: 'Esposito, example 8-4; Rabie for the coefficient',
    checked: FORM_AND_NUMBERS,
  },
  lichtarowicz: {
    title: 'Discharge coefficients for incompressible non-cavitating flow through long orifices',
    edition: 'Lichtarowicz, Duggins and Markland, 1965',
    checked: 'form retrieved from two public solvers, the ultimate coefficient memory-certain',
  },
  merritt: { title: 'Hydraulic Control Systems', edition: 'Merritt, 1967', checked: 'memory-certain' },
  wuest: { title: 'Creeping flow through a sharp hole', edition: 'Wuest, 1954', checked: 'memory-certain' },
  'colebrook-white': {
    title: 'Turbulent flow in pipes, the transition between smooth and rough laws',
    edition: 'Colebrook, 1939',
    checked: 'memory-certain',
  },
  'hagen-poiseuille-blasius': {
    title: 'Laminar law of Hagen and Poiseuille, smooth turbulent law of Blasius',
    where: 'Massey; Esposito, examples 4-2 and 4-4',
    checked: FORM_AND_NUMBERS,
  },
  'involute-displacement': {
    title: 'Mean displacement of two equal involute gears',
    where: 'Manring and Kasaragadda 2003; Ivantysyn and Ivantysynova',
    checked: DERIVED,
  },
  'slot-flow': {
    title: 'Laminar flow between parallel plates',
    where: 'Massey, example 6.3',
    checked: FORM_AND_NUMBERS,
  },
  'massey-6-2': {
    title: 'Mechanics of Fluids',
    edition: 'Massey and Ward-Smith',
    where: 'example 6.2, radial flow between discs',
    checked: FORM_AND_NUMBERS,
  },
  'relief-valve-balance': {
    title: 'Spring force against pressure times area',
    where: 'Esposito, example 8-1; Rabie for the port',
    checked: FORM_AND_NUMBERS,
  },
  'reference-network': {
    title: 'Oil network of an invented six-cylinder engine',
    where: 'conformance/networks/six-cylinder-reference.json',
    checked: 'definition; three independent programs agree on its pressures to 2e-7 Pa',
  },
  definition: { title: 'Definition of the quantity itself', checked: 'definition' },
  'shigley-springs': {
    title: "Shigley's Mechanical Engineering Design",
    edition: '9th edition',
    where: 'chapter 10, Table 10-1 for the ends',
    checked: 'memory-certain; printed examples of it and of Bhandari reproduced',
  },
  'shapley-1953': {
    title: 'A value for n-person games',
    edition: 'L. S. Shapley, 1953',
    where: 'the formula of the value',
    checked: 'memory-certain; games worked by hand over every order reproduced in the tests',
  },
};
