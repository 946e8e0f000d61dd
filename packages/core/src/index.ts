// The one door of the package.
export * from './issue.ts';
export * from './units/si.ts';
export * from './units/kinds.ts';
