// The one door of the package.
export * from './issue.ts';
export * from './units/si.ts';
export * from './units/kinds.ts';
export * from './ledger/canonical-json.ts';
export * from './ledger/sha256.ts';
export * from './ledger/uuid-v7.ts';
export { parseQuantity, missingUnit, type Quantity } from './units/quantity.ts';
export {
  fromUnit,
  inUnit,
  kindOfUnit,
  printQuantity,
  ucumCode,
  unitNamed,
  unitsOfKind,
} from './units/unit.ts';
export type { Unit } from './units/table.ts';
export { type Written, writtenNumber } from './units/number.ts';
