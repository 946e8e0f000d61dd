import type { Sources } from './source.ts';

const FORMULA_HELD = 'memory-certain; printed rows reproduced in the tests';

/** Threads, strength, preload, stripping, fits, cylinder geometry, seals. */
export const MECHANICS_SOURCES: Sources = {
  'asme-b1-1': {
    title: 'Unified Inch Screw Threads (UN and UNR Thread Form)',
    edition: 'ASME B1.1-2003',
    where: 'series table; formulas for classes 2A and 2B',
    checked: 'memory-certain; printed UNC and UNF diameters, areas and one 2A/2B row reproduced',
  },
  'iso-261': {
    title: 'ISO general purpose metric screw threads: general plan',
    edition: 'ISO 261:1998',
    checked: 'memory-likely for the rarer sizes, memory-certain from M5 to M16',
  },
  'iso-724': {
    title: 'ISO general purpose metric screw threads: basic dimensions',
    edition: 'ISO 724:1993',
    checked: FORMULA_HELD,
  },
  'iso-965-1': {
    title: 'ISO general purpose metric screw threads: tolerances, principles and basic data',
    edition: 'ISO 965-1:1998',
    where: 'tables of es, Td, Td2, TD1, TD2 and the formulas under them',
    checked:
      'memory-certain for M6 to M16, memory-likely beyond; table held to its formulas within one rounding step',
  },
  'sae-j429': {
    title: 'Mechanical and Material Requirements for Externally Threaded Fasteners',
    edition: 'SAE J429',
    where: 'as printed in Shigley, 9th edition, Table 8-9',
    checked: 'retrieved as a reproduction',
  },
  'sae-j995': {
    title: 'Mechanical and Material Requirements for Steel Nuts',
    edition: 'SAE J995',
    checked: 'memory-likely; coarse threads only',
  },
  'iso-898-1': {
    title: 'Mechanical properties of fasteners: bolts, screws and studs',
    edition: 'ISO 898-1:1999',
    checked: 'retrieved as a reproduction of the whole table',
  },
  'iso-898-2': {
    title: 'Mechanical properties of fasteners: nuts with specified proof load values, coarse thread',
    edition: 'ISO 898-2:1992',
    checked: 'proof loads M5 to M16 retrieved; stresses are those loads over the area',
  },
  'iso-16047': {
    title: 'Fasteners: torque and clamp force testing',
    edition: 'ISO 16047:2005, with DIN 946',
    checked: 'memory-certain',
  },
  'vdi-2230': {
    title: 'Systematic calculation of high duty bolted joints',
    edition: 'VDI 2230 Part 1:2003; scatter of tightening from the 1986 edition',
    checked: 'retrieved; its fine-thread preload and torque table reproduced',
  },
  'shigley-fasteners': {
    title: "Shigley's Mechanical Engineering Design",
    edition: '9th',
    where: 'Tables 8-1, 8-2, 8-15, A-20; Equations 8-20 to 8-32',
    checked: 'retrieved',
  },
  'shigley-fits': {
    title: "Shigley's Mechanical Engineering Design",
    edition: '9th',
    where: 'Equation 3-56',
    checked: "retrieved; an example of Marks' Calculations for Machine Design reproduced",
  },
  'bolt-handbook': {
    title: 'Handbook of Bolts and Bolted Joints',
    where: 'chapter 2, nut factors',
    checked: 'retrieved as a quotation',
  },
  'torque-table-drive-parts': {
    title: 'Torque table of a catalogue of drive parts (Martin Sprocket)',
    checked: 'retrieved; three of its torques reproduced',
  },
  'preload-scatter': {
    title:
      "Preload scatter of the torque wrench: 25 % in Machinery's Handbook, 23 to 28 % in VDI 2230, 30 % in a bolting glossary",
    checked: 'memory-certain, retrieved and retrieved; the wider figure is used',
  },
  'torque-adapter': {
    title: 'Moment balance of wrench and adapter',
    checked: 'definition; one printed example reproduced. Some tables state the angle the wrong way round',
  },
  'fed-std-h28-2': {
    title: 'Screw-Thread Standards for Federal Services, Unified threads',
    edition: "FED-STD-H28/2, formulas as in Machinery's Handbook, 24th edition",
    checked: 'retrieved from the handbook; metric threads by the same geometry',
  },
  'alexander-1977': {
    title: 'Analysis and Design of Threaded Assemblies',
    edition: 'SAE 770420 (1977)',
    checked: 'memory-certain; the polynomials meet at 0.897',
  },
  'iso-286-1': {
    title: 'ISO code system for tolerances on linear sizes: basis of tolerances, deviations and fits',
    edition: 'ISO 286-1:2010',
    where: 'tables 1 to 5, with Δ',
    checked:
      'IT6 to IT8 and shafts m to u to 120 mm retrieved; the rest memory-certain, IT5 to IT11 held to i = 0.45 ∛D + 0.001 D',
  },
  'iso-286-2': {
    title: 'ISO code system for tolerances on linear sizes: tables of tolerance classes',
    edition: 'ISO 286-2:2010',
    checked: 'memory-certain for the classes compared in the tests, otherwise made from ISO 286-1',
  },
  'heywood-1988': {
    title: 'Internal Combustion Engine Fundamentals',
    edition: 'Heywood, 1988',
    where: 'chapters 2 and 6',
    checked: 'retrieved in part; forms confirmed by derivatives and by hand',
  },
  'cam-geometry': {
    title: 'Valve events of symmetric lobes, by the definitions of durations and centres',
    checked: 'definition; the events of an engine handbook reproduced',
  },
  'astm-e287': {
    title: 'Standard Specification for Laboratory Glass Graduated Burets',
    edition: 'ASTM E287',
    checked: 'memory-certain for class A; class B as twice class A retrieved',
  },
  'astm-f36': {
    title: 'Standard Test Method for Compressibility and Recovery of Gasket Materials',
    edition: 'ASTM F36-1999',
    checked: 'retrieved; the definition of compressibility serves for the squeeze',
  },
  'navedtra-14264': {
    title: 'Construction Mechanic Basic',
    edition: 'NAVEDTRA 14264A',
    where: 'chapter 3, compression test: not over 15 to 20 psi apart, or within 10 to 15 %',
    checked: 'retrieved; the two kinds of limit can disagree',
  },
  'crank-balance': {
    title: 'The Internal-Combustion Engine in Theory and Practice, volume 2; Mechanical Vibrations',
    where: 'Taylor, chapter on balance; Den Hartog, chapter 5',
    checked: 'memory-certain: first order of a two-plane 90° V8, by the sum of the forces',
  },
  'iso-21940-11': {
    title: 'Mechanical vibration: rotor balancing, procedures and tolerances for rotors with rigid behaviour',
    edition: 'ISO 21940-11:2016',
    where: 'balance quality grade G as a product of offset and speed',
    checked: 'memory-likely; the printed 9549 G m/n follows from it',
  },
  'circles-held': {
    title: 'Derived: the new circle of a bore holds the worn one, that of a journal lies within it',
    checked: 'definition; held in the tests to circles drawn point by point',
  },
  'rocking-stem': {
    title: 'Derived: similar triangles of a stem tilted in its guide, touching at both ends',
    checked: 'definition; held in the tests to a stem turned by an angle',
  },
  'ring-circumference': {
    title: 'Derived: the gap of a ring grows by π times the diameter',
    where: 'TM 5-6115-593-34 and TM 5-3805-261-34 print .003 in of gap for .001 in of bore',
    checked: 'definition; the printed rule is π rounded',
  },
  'practice-sizes': {
    title:
      'common practice, no source: honing .002 to .003 in after boring, ring gap .003 to .004 per diameter, limits taken as three deviations',
    checked: 'memory-likely; guidance only',
  },
  'shims-together': {
    title: 'Derived: what goes in together takes no more room than there is',
    checked: 'definition; which stack is best by trying every one',
  },
  'half-circle-arc': { title: 'Arc of a half circle and two stand-outs', checked: 'definition' },
  'practice-seals': {
    title: 'common practice, no source: working squeeze of cork 15 to 30 %',
    checked: 'memory-likely; guidance only',
  },
};
