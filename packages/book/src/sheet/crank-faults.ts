import type { QuantityKind } from '@fettle/core';
import { parameterFaults } from './circuit-faults.ts';
import { type Faults, listed } from './fault.ts';
import type { Characteristic, CrankFigure, CrankSheet, SpecSheet } from './sheet.ts';

/** The figures of the crank and what each is a quantity of. */
export const CRANK_FIGURES = {
  bore: 'length',
  stroke: 'length',
  rod: 'length',
  compression_ratio: 'ratio',
  piston_mass: 'mass',
  rod_mass: 'mass',
  rod_big_end_mass: 'mass',
  throw_mass: 'mass',
  inlet_shuts: 'angle',
  exhaust_opens: 'angle',
} as const satisfies Readonly<Record<string, QuantityKind>>;

export type CrankFigureName = keyof typeof CRANK_FIGURES;

/** The axes that a cylinder fixes, as far as the figure's characteristic has them. */
export const fixedFor = (
  at: Readonly<Record<string, string>>,
  characteristic: Characteristic,
): Record<string, string> =>
  Object.fromEntries(Object.entries(at).filter(([axis]) => characteristic.places.includes(axis)));

/** Whether the crank's figures can be read and its bearings are those of the circuit. */
export function crankFaults(
  sheet: SpecSheet,
  byId: ReadonlyMap<string, Characteristic>,
  faults: Faults,
): void {
  const { crank } = sheet;
  if (!crank) return;
  for (const key of Object.keys(CRANK_FIGURES) as CrankFigureName[]) {
    const figure = crank[key];
    if (figure !== undefined) figureFaults(sheet, byId, crank, key, figure, faults);
  }
  for (const [i, { fires, bore_direction }] of crank.cylinders.entries()) {
    const path = ['crank', 'cylinders', i];
    const at = faults.quantity(fires, 'angle', [...path, 'fires'], `Cylinder ${i + 1}, fires`);
    faults.quantity(bore_direction, 'angle', [...path, 'bore_direction'], `Cylinder ${i + 1}, bore`);
    if (at !== undefined && !(at >= 0 && at < 4 * Math.PI))
      faults.add(
        'outside-the-cycle',
        [...path, 'fires'],
        fires,
        '0 deg up to under 720 deg',
        `Cylinder ${i + 1} fires at ${fires}, but a cycle goes from 0 to under 720 deg. Correct it.`,
      );
  }
  bearingNameFaults(sheet, crank, faults);
}

function figureFaults(
  sheet: SpecSheet,
  byId: ReadonlyMap<string, Characteristic>,
  crank: CrankSheet,
  key: CrankFigureName,
  figure: CrankFigure,
  faults: Faults,
): void {
  const path = ['crank', key];
  const kind = CRANK_FIGURES[key];
  const subject = `Crank, ${key.replaceAll('_', ' ')}`;
  if (typeof figure === 'string') {
    const value = faults.quantity(figure, kind, path, subject);
    if (value !== undefined && key !== 'throw_mass' && !(value > (key === 'compression_ratio' ? 1 : 0)))
      faults.add(
        'not-positive',
        path,
        figure,
        key === 'compression_ratio' ? 'over 1' : 'over 0',
        `${subject} is ${figure}, which no engine has. Correct it.`,
      );
    return;
  }
  const characteristic = byId.get(figure.from);
  if (characteristic && characteristic.kind !== 'seen' && characteristic.kind !== kind) {
    faults.add(
      'other-kind',
      [...path, 'from'],
      `${figure.from}, a ${characteristic.kind}`,
      `a ${kind}`,
      `${subject} is taken from ${figure.from}, which is a ${characteristic.kind} and not a ${kind}. Name another.`,
    );
    return;
  }
  // One cylinder stands for all: they fix the same axes.
  const at = characteristic ? fixedFor(crank.cylinders[0]!.at, characteristic) : {};
  parameterFaults(sheet, byId, { ...figure, at: { ...at, ...figure.at } }, path, faults);
}

function bearingNameFaults(sheet: SpecSheet, crank: CrankSheet, faults: Faults): void {
  const bearings = (sheet.oil?.circuit?.elements ?? [])
    .filter(({ law }) => typeof law === 'string' && law.includes('bearing'))
    .map(({ id }) => String(id));
  for (const [i, { rod, mains }] of crank.cylinders.entries())
    for (const [key, name] of [['rod', rod], ...mains.map((main, k) => [`mains/${k}`, main])] as const)
      if (!bearings.includes(name))
        faults.add(
          'unknown-bearing',
          ['crank', 'cylinders', i, ...key.split('/')],
          name,
          listed(bearings),
          `The crank names the bearing "${name}", which the oil circuit does not have. Use one of ${listed(bearings)}.`,
        );
}
