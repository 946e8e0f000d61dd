import { type Faults, listed } from './fault.ts';
import type { SpecSheet } from './sheet.ts';

/** That materials read, and that every one named by a characteristic is there and serves a length. */
export function materialFaults(sheet: SpecSheet, faults: Faults): void {
  const materials = sheet.materials ?? {};
  for (const [id, { expansion, doubt }] of Object.entries(materials)) {
    faults.quantity(expansion, 'expansion', ['materials', id, 'expansion'], `${id}, expansion`);
    faults.quantity(doubt, 'ratio', ['materials', id, 'doubt'], `${id}, doubt`);
  }
  for (const [i, { id, kind, material }] of sheet.characteristics.entries()) {
    if (material === undefined) continue;
    const path = ['characteristics', i, 'material'];
    if (!Object.hasOwn(materials, material))
      faults.add(
        'unknown-material',
        path,
        material,
        `one of: ${listed(Object.keys(materials))}`,
        `${id} is of "${material}", which is not among the materials of the sheet. Add it there, or correct the name.`,
      );
    if (kind !== 'length')
      faults.add(
        'material-of-no-length',
        path,
        kind,
        'a length',
        `${id} is a ${kind} and names a material; only a length changes with its part's temperature here. Leave the material out.`,
      );
  }
}
