// The one door of the package.
export * from './ledger/bodies.ts';
export * from './ledger/entry.ts';
export * from './ledger/ledger.ts';
export * from './ledger/writing.ts';
export * from './sheet/relation.ts';
export * from './sheet/sheet.ts';
