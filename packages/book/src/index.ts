// The one door of the package.
export * from './ledger/bodies.ts';
export * from './ledger/entry.ts';
export * from './ledger/ledger.ts';
export * from './ledger/writing.ts';
export * from './sheet/relation.ts';
export * from './sheet/sheet.ts';
export {
  axisValues,
  type Place,
  placeFrom,
  placesOf,
  placeText,
  type Position,
  positionAt,
  positionsOf,
} from './sheet/places.ts';
export { readSheet } from './sheet/read-sheet.ts';
export { isHidden } from './sheet/cover-faults.ts';
