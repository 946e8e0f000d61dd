/**
 * Factors to SI for the units in which the published cases are written.
 * Kept apart from the program's own unit table on purpose: one checks the other.
 */
const IN = 0.0254;
const LBF = 4.4482216152605;
const LBM = 0.45359237;
const PSI = LBF / (IN * IN);
const GAL = 231 * IN ** 3;
const BTU = 1055.05585262;

const FACTORS: Readonly<Record<string, number>> = {
  '1': 1, '-': 1, '%': 0.01, code: 1, index: 1, SAE: 1, a: 1, '1e-3': 1e-3, 'product sd': 1, 'in/in': 1,
  m: 1, cm: 1e-2, mm: 1e-3, um: 1e-6, nm: 1e-9, in: IN, ft: 12 * IN,
  m2: 1, cm2: 1e-4, mm2: 1e-6, 'mm^2': 1e-6, in2: IN ** 2, 'in^2': IN ** 2,
  m3: 1, cm3: 1e-6, mL: 1e-6, in3: IN ** 3, 'm3/rev': 1, 'cm3/rev': 1e-6, 'gal (US)': GAL, 'gal (imp)': 4.54609e-3,
  s: 1, rad: 1, deg: Math.PI / 180, 'cam deg': Math.PI / 180,
  'deg BTDC': Math.PI / 180, 'deg ABDC': Math.PI / 180, 'deg BBDC': Math.PI / 180, 'deg ATDC': Math.PI / 180,
  'rad/s': 1, 'rev/s': 2 * Math.PI, rpm: Math.PI / 30, Hz: 1,
  'm/s': 1, 'mm/s': 1e-3, 'km/h': 1 / 3.6, 'ft/min': (12 * IN) / 60,
  kg: 1, g: 1e-3, oz: LBM / 16,
  N: 1, kN: 1e3, lbf: LBF, kip: 1e3 * LBF,
  'N.m': 1, 'N*m': 1, 'lbf.in': LBF * IN, 'in.lbf': LBF * IN, 'lbf*in': LBF * IN, 'lbf.ft': LBF * 12 * IN,
  'lbf*ft': LBF * 12 * IN, 'kgf.m': 9.80665, 'kgf*cm': 0.0980665, 'ozf.in': (LBF / 16) * IN, 'ozf*in': (LBF / 16) * IN,
  'N/m': 1, 'N/mm': 1e3, 'MN/m': 1e6, 'lbf/in': LBF / IN, 'Mlbf/in': (1e6 * LBF) / IN,
  Pa: 1, 'Pa abs': 1, kPa: 1e3, MPa: 1e6, GPa: 1e9, 'N/mm^2': 1e6, bar: 1e5, mbar: 100, atm: 101325,
  psi: PSI, ksi: 1e3 * PSI, Mpsi: 1e6 * PSI, inHg: 3386.389, 'inHg (conventional)': 3386.389,
  'UK tonf/in^2': (2240 * LBF) / IN ** 2,
  'Pa.s': 1, 'mPa.s': 1e-3, cP: 1e-3, P: 0.1, reyn: PSI, microreyn: 1e-6 * PSI, 'lbf.s/ft2': LBF / (12 * IN) ** 2,
  'm2/s': 1, 'mm2/s': 1e-6,
  'kg/m3': 1, 'kg/m^3': 1, 'lbm/in3': LBM / IN ** 3, 'lbm/ft3': LBM / (12 * IN) ** 3,
  'm3/s': 1, 'mm3/s': 1e-9, 'L/min': 1e-3 / 60, 'cm3/min': 1e-6 / 60, 'in3/s': IN ** 3, gpm: GAL / 60,
  'm3/(s.Pa)': 1, 'N/m3': 1, 'lbf/in3': LBF / IN ** 3, 'lbf/in^3': LBF / IN ** 3, 'in/s^2': IN,
  K: 1, '1/K': 1, '1/degC': 1, '1/degF': 1.8, degC2: 1,
  'J/(m3.K)': 1, 'J/(kg.K)': 1, 'Btu/(lbm.degF)': (BTU / LBM) * 1.8, 'Btu/h': BTU / 3600,
  W: 1, hp: 745.69987158227, 'hp (550 ft.lbf/s)': 550 * LBF * 12 * IN, bhp: 745.69987158227,
  'in3/bhp': IN ** 3 / 745.69987158227, 'kg/s': 1, '1/in': 1 / IN, '1/mm': 1e3, 'ohm.cm': 1, 'g.mm': 1e-6,
  'MPa*mm^m': 1, position: 1, 'm3/(s.Pa) ANR': 1,
};

/** Scale temperatures go to degC, not to K: the published formulas differ in which zero they use. */
export function toSi(value: number, unit: string): number {
  if (unit === 'degC') return value;
  if (unit === 'degF') return (value - 32) / 1.8;
  const factor = FACTORS[unit];
  if (factor === undefined) throw new Error(`no factor for the unit "${unit}" of a published case`);
  return value * factor;
}

/** A tolerance has no zero point: only the size of the unit counts. */
export function sizeOf(unit: string): number {
  if (unit === 'degC') return 1;
  if (unit === 'degF') return 1 / 1.8;
  return toSi(1, unit);
}
