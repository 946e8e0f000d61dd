// The one door of the package.
export { type Bar, barsText } from './bars-text.ts';
export { type CoverMark, closingLineText } from './closing-line-text.ts';
export { limitRailText, type Rail } from './limit-rail-text.ts';
export { type Curve, pressureCurveText } from './pressure-curve-text.ts';
