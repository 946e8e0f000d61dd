import { circuitFaults } from './circuit-faults.ts';
import { type Faults, listed } from './fault.ts';
import type { Characteristic, SpecSheet } from './sheet.ts';

export function oilFaults(sheet: SpecSheet, byId: ReadonlyMap<string, Characteristic>, faults: Faults): void {
  const { oil } = sheet;
  if (!oil) return;
  const grades = Object.keys(oil.grades);
  if (!grades.includes(oil.fill))
    faults.add(
      'unknown-grade',
      ['oil', 'fill'],
      oil.fill,
      listed(grades),
      `The engine is filled with "${oil.fill}", which is none of the sheet's grades (${listed(grades)}). Name one of them.`,
    );
  for (const [name, grade] of Object.entries(oil.grades)) {
    const path = ['oil', 'grades', name];
    const [at40, at100] = (['kv40', 'kv100'] as const).map((key) =>
      faults.quantity(grade[key], 'kinematic-viscosity', [...path, key], `Oil ${name}, ${key}`),
    );
    if (at40 !== undefined && at100 !== undefined && !(at100 > 0 && at40 > at100))
      faults.add(
        'viscosities-crossed',
        path,
        `${grade.kv40} at 40 °C, ${grade.kv100} at 100 °C`,
        'thinner at 100 °C than at 40 °C',
        `Oil ${name} is not thinner at 100 °C (${grade.kv100}) than at 40 °C (${grade.kv40}). Exchange or correct them.`,
      );
  }
  faults.quantity(oil.density15, 'density', ['oil', 'density15'], 'Oil density at 15 °C');
  for (const key of ['cold', 'hot'] as const)
    faults.quantity(oil[key], 'temperature', ['oil', key], `Sump temperature meant by ${key}`);
  for (const [i, speed] of oil.speeds.entries())
    faults.quantity(speed, 'speed', ['oil', 'speeds', i], `Oil, speed ${i + 1}`);
  if (oil.speeds.length === 0)
    faults.add(
      'no-speeds',
      ['oil', 'speeds'],
      'an empty list',
      'at least the idle speed',
      'Give the crank speeds at which pressure is shown, the idle speed first.',
    );
  for (const [i, p] of oil.pressures.entries()) {
    const path = ['oil', 'pressures', i];
    const subject = `Oil pressure ${i + 1}`;
    faults.quantity(p.speed, 'speed', [...path, 'speed'], `${subject}, speed`);
    faults.quantity(p.temperature, 'temperature', [...path, 'temperature'], `${subject}, temperature`);
    const lower = faults.quantity(p.lower, 'pressure', [...path, 'lower'], `${subject}, lower`);
    const upper = faults.quantity(p.upper, 'pressure', [...path, 'upper'], `${subject}, upper`);
    if (lower !== undefined && upper !== undefined && lower > upper)
      faults.add(
        'limits-crossed',
        path,
        `lower ${p.lower}, upper ${p.upper}`,
        'lower at or under upper',
        `${subject}: the lower limit is above the upper one. Exchange or correct them.`,
      );
    if (p.lower === undefined && p.upper === undefined)
      faults.add(
        'limits-empty',
        path,
        'no limit',
        'a lower or an upper limit',
        `${subject} has no limit. Give one, or remove it.`,
      );
  }
  primingFaults(sheet, faults);
  circuitFaults(sheet, byId, faults);
}

const PRIMING = [
  ['lift', 'length', 'Height the oil is lifted to the pump'],
  ['cranking', 'speed', 'Cranking speed'],
  ['drill', 'speed', 'Speed of the pump on a drill'],
  ['fill_volume', 'volume', 'Volume to be filled'],
] as const;

function primingFaults({ oil }: SpecSheet, faults: Faults): void {
  if (!oil?.priming) return;
  for (const [key, kind, subject] of PRIMING) {
    const path = ['oil', 'priming', key];
    const value = faults.quantity(oil.priming[key], kind, path, subject);
    if (value !== undefined && !(value > 0))
      faults.add(
        'not-above-zero',
        path,
        oil.priming[key]!,
        'more than nothing',
        `${subject}: ${oil.priming[key]} is none. Correct it, or leave it out.`,
      );
  }
}
