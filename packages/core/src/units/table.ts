import type { QuantityKind } from './kinds.ts';

/**
 * The units people write, each with its factor to SI from exact definitions:
 * inch 0.0254 m, pound 0.45359237 kg, standard gravity 9.80665 m/s², US gallon 231 in³, imperial gallon 4.54609 L.
 *
 * @source sp811 for the definitions; inch and millimetre of mercury are the conventional ones
 */
export interface Unit {
  /** Canonical name, plain ASCII, unique over all kinds. */
  readonly name: string;
  readonly kind: QuantityKind;
  /** SI = said × factor + offset. */
  readonly factor: number;
  readonly offset: number;
  readonly ucum: string;
  /** How it is printed. */
  readonly shown: string;
  /** Other writings that are taken for it within its kind. */
  readonly spellings: readonly string[];
  /** Upper and lower case mean the same: true of trade units, never of SI prefixes. */
  readonly anyCase: boolean;
}

const INCH = 0.0254;
const FOOT = 12 * INCH;
const POUND = 0.45359237;
const GRAVITY = 9.80665;
const LBF = POUND * GRAVITY;
const OZF = LBF / 16;
const PSI = LBF / INCH ** 2;
const IN3 = INCH ** 3;
const US_GALLON = 231 * IN3;
const IMPERIAL_GALLON = 4.54609e-3;
const TURN = 2 * Math.PI;

/** name, factor, UCUM, other spellings separated by spaces (`_` stands for a space inside one). */
type Row = readonly [name: string, factor: number, ucum: string, spellings?: string];

const metric = (kind: QuantityKind, rows: readonly Row[]): Unit[] =>
  rows.map((row) => unit(kind, row, false));
const trade = (kind: QuantityKind, rows: readonly Row[]): Unit[] => rows.map((row) => unit(kind, row, true));

function unit(kind: QuantityKind, [name, factor, ucum, spellings]: Row, anyCase: boolean): Unit {
  const others = spellings ? spellings.split(' ').map((s) => s.replaceAll('_', ' ')) : [];
  return { name, kind, factor, offset: 0, ucum, shown: shownAs(name), spellings: others, anyCase };
}

/** The Greek mu (U+03BC) and not the micro sign: fonts of printed pages have the letter. */
function shownAs(name: string): string {
  if (name === '1') return '';
  return name
    .replace(/^deg([CF])$/, '°$1')
    .replace(/\/deg([CF])$/, '/°$1')
    .replace(/^deg$/, '°')
    .replace(/^u(?=m|in|reyn|s$)/, 'μ')
    .replaceAll('.', '·')
    .replace(/(?<=[a-z])2(?=$|\/)/, '²')
    .replace(/(?<=[a-z])3(?=$|\/)/, '³');
}

const temperature = (
  name: string,
  factor: number,
  offset: number,
  ucum: string,
  spellings: string,
): Unit => ({
  ...unit('temperature', [name, factor, ucum, spellings], name !== 'K'),
  offset,
});

/** Spring makers and scales write pounds where pounds-force are meant; inside these compounds nothing else can be. */
export const UNITS: readonly Unit[] = [
  ...metric('length', [
    ['mm', 1e-3, 'mm', 'millimetre millimetres millimeter millimeters'],
    ['um', 1e-6, 'um', 'micron microns micrometre micrometres micrometer micrometers'],
    ['cm', 1e-2, 'cm', 'centimetre centimetres centimeter centimeters'],
    ['m', 1, 'm', 'metre metres meter meters'],
    ['nm', 1e-9, 'nm'],
    ['km', 1e3, 'km'],
  ]),
  ...trade('length', [
    ['in', INCH, '[in_i]', '" in. inch inches'],
    ['thou', INCH / 1e3, '[mil_i]', 'thous'],
    ['mil', INCH / 1e3, '[mil_i]', 'mils'],
    ['uin', INCH / 1e6, '10*-6.[in_i]', 'microinch microinches'],
    ['ft', FOOT, '[ft_i]', "' ft. foot feet"],
  ]),
  ...metric('area', [
    ['mm2', 1e-6, 'mm2', 'sq_mm'],
    ['cm2', 1e-4, 'cm2', 'sq_cm'],
    ['m2', 1, 'm2', 'sq_m'],
  ]),
  ...trade('area', [
    ['in2', INCH ** 2, '[in_i]2', 'sq_in sq.in sqin'],
    ['ft2', FOOT ** 2, '[ft_i]2', 'sq_ft'],
  ]),
  ...metric('volume', [
    ['cm3', 1e-6, 'cm3', 'cc ccm cu_cm CC'],
    ['mL', 1e-6, 'mL', 'ml'],
    ['L', 1e-3, 'L', 'l litre litres liter liters'],
    ['dm3', 1e-3, 'dm3'],
    ['mm3', 1e-9, 'mm3', 'cu_mm'],
    ['m3', 1, 'm3', 'cu_m'],
  ]),
  ...trade('volume', [
    ['in3', IN3, '[in_i]3', 'cu_in cu.in cuin cid'],
    ['US gal', US_GALLON, '[gal_us]', 'gal_US gal_(US) US_gallon US_gallons U.S._gal'],
    ['US qt', US_GALLON / 4, '[qt_us]', 'qt_US qt_(US) US_quart US_quarts U.S._qt'],
    ['ft3', FOOT ** 3, '[ft_i]3', 'cu_ft'],
    ['US pt', US_GALLON / 8, '[pt_us]', 'pt_US pt_(US) US_pint US_pints'],
    ['US fl oz', US_GALLON / 128, '[foz_us]', 'fl_oz_US fl_oz_(US)'],
    [
      'imp gal',
      IMPERIAL_GALLON,
      '[gal_br]',
      'gal_imp gal_(imp) imperial_gal imperial_gallon imperial_gallons UK_gal gal_UK gal_(UK)',
    ],
    ['imp qt', IMPERIAL_GALLON / 4, '[qt_br]', 'qt_imp qt_(imp) imperial_quart imperial_quarts UK_qt'],
    ['imp pt', IMPERIAL_GALLON / 8, '[pt_br]', 'pt_imp pt_(imp) imperial_pint imperial_pints UK_pt'],
    ['imp fl oz', IMPERIAL_GALLON / 160, '[foz_br]', 'fl_oz_imp fl_oz_(imp)'],
  ]),
  ...metric('angle', [
    ['deg', Math.PI / 180, 'deg', '° degree degrees'],
    ['rad', 1, 'rad'],
    ['mrad', 1e-3, 'mrad'],
    ['arcmin', Math.PI / 10800, "'", "'"],
    ['arcsec', Math.PI / 648000, "''", '"'],
    ['turn', TURN, '{rev}', 'rev turns'],
  ]),
  ...metric('time', [
    ['s', 1, 's', 'sec second seconds'],
    ['ms', 1e-3, 'ms'],
    ['us', 1e-6, 'us'],
    ['min', 60, 'min', 'minute minutes'],
    ['h', 3600, 'h', 'hr hrs hour hours'],
    ['d', 86400, 'd', 'day days'],
  ]),
  ...metric('velocity', [
    ['m/s', 1, 'm/s'],
    ['mm/s', 1e-3, 'mm/s'],
    ['m/min', 1 / 60, 'm/min'],
    ['km/h', 1 / 3.6, 'km/h'],
  ]),
  ...trade('velocity', [
    ['ft/s', FOOT, '[ft_i]/s', 'fps'],
    ['ft/min', FOOT / 60, '[ft_i]/min', 'fpm'],
    ['in/s', INCH, '[in_i]/s', 'ips'],
    ['mph', (5280 * FOOT) / 3600, '[mi_i]/h'],
  ]),
  ...metric('acceleration', [
    ['m/s2', 1, 'm/s2'],
    ['gn', GRAVITY, '[g]', 'g'],
  ]),
  ...trade('acceleration', [
    ['ft/s2', FOOT, '[ft_i]/s2'],
    ['in/s2', INCH, '[in_i]/s2'],
  ]),
  ...trade('speed', [['rpm', TURN / 60, '{rev}/min', 'rev/min r/min 1/min min-1']]),
  ...metric('speed', [
    ['rad/s', 1, 'rad/s'],
    ['rev/s', TURN, '{rev}/s', 'rps r/s'],
    ['Hz', TURN, 'Hz'],
    ['deg/s', Math.PI / 180, 'deg/s'],
  ]),
  ...metric('mass', [
    ['g', 1e-3, 'g', 'gram grams'],
    ['kg', 1, 'kg', 'kilogram kilograms'],
    ['mg', 1e-6, 'mg'],
  ]),
  ...trade('mass', [
    ['oz', POUND / 16, '[oz_av]', 'ounce ounces'],
    ['lb', POUND, '[lb_av]', 'lbs lbm pound pounds'],
  ]),
  ...metric('force', [
    ['N', 1, 'N', 'newton newtons'],
    ['kN', 1e3, 'kN'],
    ['MN', 1e6, 'MN'],
    ['kgf', GRAVITY, 'kgf', 'kp'],
    ['gf', GRAVITY / 1e3, 'gf'],
  ]),
  ...trade('force', [
    ['lbf', LBF, '[lbf_av]', 'lbsf pound-force pounds-force'],
    ['ozf', OZF, '[lbf_av]/16'],
    ['kip', 1e3 * LBF, '10*3.[lbf_av]', 'kips klbf'],
  ]),
  ...metric('torque', [
    ['N.m', 1, 'N.m', 'Nm N-m N_m m.N'],
    ['N.mm', 1e-3, 'N.mm', 'Nmm N-mm N_mm'],
    ['N.cm', 1e-2, 'N.cm', 'Ncm N-cm N_cm'],
    ['kN.m', 1e3, 'kN.m', 'kNm kN-m kN_m'],
    ['kgf.m', GRAVITY, 'kgf.m', 'kgfm kgf-m kgf_m kgm kg.m kg-m kp.m kpm m.kgf m-kg mkg'],
    ['kgf.cm', GRAVITY / 100, 'kgf.cm', 'kgfcm kgf-cm kgf_cm kg.cm kg-cm kgcm cm.kgf'],
  ]),
  ...trade('torque', [
    [
      'lbf.ft',
      LBF * FOOT,
      '[lbf_av].[ft_i]',
      'lbf-ft lbf_ft lbfft lb.ft lb-ft lb_ft lbft lbs.ft lbs-ft lbs_ft ' +
        'ft.lbf ft-lbf ft_lbf ftlbf ft.lb ft-lb ft_lb ftlb ft.lbs ft-lbs ft_lbs ftlbs ' +
        'foot-pound foot-pounds foot_pounds pound-foot pound-feet pound_feet',
    ],
    [
      'lbf.in',
      LBF * INCH,
      '[lbf_av].[in_i]',
      'lbf-in lbf_in lbfin lb.in lb-in lb_in lbin lbs.in lbs-in lbs_in ' +
        'in.lbf in-lbf in_lbf inlbf in.lb in-lb in_lb inlb in.lbs in-lbs in_lbs inlbs ' +
        'inch-pound inch-pounds inch_pounds pound-inch pound-inches',
    ],
    ['ozf.in', OZF * INCH, '[lbf_av].[in_i]/16', 'ozf-in ozf_in oz.in oz-in oz_in in.ozf in-oz in_oz in.oz'],
  ]),
  ...metric('stiffness', [
    ['N/mm', 1e3, 'N/mm'],
    ['N/m', 1, 'N/m'],
    ['kN/mm', 1e6, 'kN/mm'],
    ['kN/m', 1e3, 'kN/m'],
    ['MN/m', 1e6, 'MN/m'],
    ['kgf/mm', GRAVITY * 1e3, 'kgf/mm', 'kg/mm'],
    ['kgf/cm', GRAVITY * 100, 'kgf/cm', 'kg/cm'],
  ]),
  ...trade('stiffness', [
    ['lbf/in', LBF / INCH, '[lbf_av]/[in_i]', 'lb/in lbs/in lbf/inch lb/inch lbs/inch ppi'],
    ['lbf/ft', LBF / FOOT, '[lbf_av]/[ft_i]', 'lb/ft'],
  ]),
  ...metric('pressure', [
    ['kPa', 1e3, 'kPa'],
    ['MPa', 1e6, 'MPa', 'N/mm2'],
    ['bar', 1e5, 'bar'],
    ['mbar', 100, 'mbar', 'hPa'],
    ['Pa', 1, 'Pa'],
    ['GPa', 1e9, 'GPa', 'kN/mm2'],
    ['kgf/cm2', GRAVITY * 1e4, 'kgf/cm2', 'kg/cm2 kp/cm2'],
    ['kgf/mm2', GRAVITY * 1e6, 'kgf/mm2', 'kg/mm2'],
    ['atm', 101325, 'atm'],
    ['mmHg', 133.322387415, 'mm[Hg]', 'torr Torr'],
  ]),
  ...trade('pressure', [
    ['psi', PSI, '[psi]', 'lbf/in2 lb/in2 lbs/in2 lbf/sq_in lb/sq_in p.s.i.'],
    ['ksi', 1e3 * PSI, '10*3.[psi]'],
    ['Mpsi', 1e6 * PSI, '10*6.[psi]'],
    // 25.4 conventional millimetres of mercury.
    ['inHg', 25.4 * 133.322387415, "[in_i'Hg]", 'in.Hg in_Hg "Hg inches_Hg'],
    ['inH2O', 25.4 * GRAVITY, "[in_i'H2O]", 'in.H2O in_H2O in.wg inWG "wg'],
  ]),
  ...metric('dynamic-viscosity', [
    ['mPa.s', 1e-3, 'mPa.s', 'mPas mPa-s mPa_s'],
    ['cP', 1e-3, 'cP', 'cps centipoise'],
    ['Pa.s', 1, 'Pa.s', 'Pas Pa-s Pa_s'],
    ['P', 0.1, 'P', 'poise'],
    ['reyn', PSI, '[lbf_av].s/[in_i]2', 'lbf.s/in2 lb.s/in2'],
    ['ureyn', 1e-6 * PSI, '10*-6.[lbf_av].s/[in_i]2', 'microreyn'],
  ]),
  ...metric('kinematic-viscosity', [
    ['mm2/s', 1e-6, 'mm2/s'],
    ['cSt', 1e-6, 'cSt', 'centistokes CST cst'],
    ['m2/s', 1, 'm2/s'],
    ['cm2/s', 1e-4, 'cm2/s'],
    ['St', 1e-4, 'St', 'stokes'],
  ]),
  ...metric('density', [
    ['kg/m3', 1, 'kg/m3'],
    ['g/cm3', 1e3, 'g/cm3', 'g/mL g/ml g/cc kg/L kg/l kg/dm3'],
    ['g/L', 1, 'g/L', 'g/l'],
  ]),
  ...trade('density', [
    ['lb/in3', POUND / IN3, '[lb_av]/[in_i]3', 'lbm/in3 lb/cu_in'],
    ['lb/ft3', POUND / FOOT ** 3, '[lb_av]/[ft_i]3', 'lbm/ft3 lb/cu_ft'],
  ]),
  ...metric('flow', [
    ['L/min', 1e-3 / 60, 'L/min', 'l/min lpm LPM'],
    ['mL/s', 1e-6, 'mL/s', 'ml/s cm3/s cc/s'],
    ['L/s', 1e-3, 'L/s', 'l/s'],
    ['L/h', 1e-3 / 3600, 'L/h', 'l/h'],
    ['mL/min', 1e-6 / 60, 'mL/min', 'ml/min cm3/min cc/min'],
    ['mm3/s', 1e-9, 'mm3/s'],
    ['m3/s', 1, 'm3/s'],
    ['m3/h', 1 / 3600, 'm3/h'],
  ]),
  ...trade('flow', [
    ['in3/s', IN3, '[in_i]3/s', 'cu_in/s'],
    ['in3/min', IN3 / 60, '[in_i]3/min', 'cu_in/min'],
    ['ft3/min', FOOT ** 3 / 60, '[ft_i]3/min', 'cfm'],
    ['US gal/min', US_GALLON / 60, '[gal_us]/min', 'US_gpm gpm_(US) gal_(US)/min'],
    ['imp gal/min', IMPERIAL_GALLON / 60, '[gal_br]/min', 'imp_gpm gpm_(imp) gal_(imp)/min UK_gal/min'],
  ]),
  temperature('degC', 1, 273.15, 'Cel', 'C celsius'),
  temperature('degF', 5 / 9, 273.15 - (32 * 5) / 9, '[degF]', 'F fahrenheit'),
  temperature('K', 1, 0, 'K', 'kelvin'),
  ...metric('expansion', [
    ['1/K', 1, '1/K', '/K K-1 per_K'],
    ['1/degC', 1, '1/Cel', '/degC 1/C /C per_degC'],
    ['1/degF', 1.8, '1/[degF]', '/degF 1/F /F in/in/degF per_degF'],
    ['um/m/K', 1e-6, 'um/m/K', 'um/(m.K) ppm/K ppm/degC um/m/degC'],
  ]),
  ...metric('power', [
    ['W', 1, 'W', 'watt watts'],
    ['kW', 1e3, 'kW'],
  ]),
  ...trade('power', [
    ['hp', 550 * LBF * FOOT, '[HP]', 'bhp'],
    // 75 kgf·m/s, as metric engine makers count.
    ['metric hp', 75 * GRAVITY, '75.kgf.m/s', 'hp_(metric)'],
  ]),
  ...metric('ratio', [
    ['1', 1, '1'],
    ['%', 0.01, '%', 'percent per_cent'],
    ['ppm', 1e-6, '[ppm]'],
  ]),
];
