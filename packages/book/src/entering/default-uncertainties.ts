/** What an instrument of a type is taken to be good for when its owner has not said. Shown as a default wherever used. */
export interface DefaultUncertainty {
  /** U at k = 2. */
  readonly expanded: string;
  readonly source: string;
}

/**
 * A published limit of error a is taken as rectangular: U = 2 a/√3. Where nothing is published the figure is the
 * usual result of careful amateur work, on the wide side.
 */
export const DEFAULT_UNCERTAINTIES: Readonly<Record<string, DefaultUncertainty>> = {
  micrometer: { expanded: '0.0002 in', source: 'DIN 863-1: 4 to 5 µm up to 100 mm, so U = 5 to 6 µm' },
  'telescoping gauge': { expanded: '0.0008 in', source: 'common practice, no source' },
  'dial bore gauge': { expanded: '0.0004 in', source: 'common practice, no source' },
  'depth micrometer': { expanded: '0.0005 in', source: 'common practice, no source' },
  'feeler leaves': { expanded: '0.0005 in', source: 'common practice, no source' },
  'straightedge and leaf': { expanded: '0.0008 in', source: 'common practice, no source' },
  'dial indicator': { expanded: '0.0007 in', source: 'DIN 878: about 17 µm over 10 mm, so U = 20 µm' },
  calliper: { expanded: '0.002 in', source: 'DIN 862: 20 to 50 µm, so U = 23 to 58 µm' },
  'spring tester': { expanded: '4 %', source: 'common practice, no source' },
  'torque wrench': { expanded: '5 %', source: 'common practice, no source' },
  'oil pressure gauge': { expanded: '3 psi', source: 'common practice, no source' },
  'compression gauge': { expanded: '4 psi', source: 'common practice, no source' },
  burette: { expanded: '0.12 mL', source: 'ISO 385 class B, 50 mL: 0.10 mL, so U = 0.12 mL' },
  'degree wheel': { expanded: '1 deg', source: 'common practice, no source' },
  thermometer: { expanded: '2 K', source: 'common practice, no source' },
  'steel rule': { expanded: '0.03 in', source: 'common practice, no source' },
  scale: { expanded: '0.5 g', source: 'common practice, no source' },
};
