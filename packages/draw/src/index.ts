// The one door of the package.
export { type Bar, barsText } from './bars-text.ts';
export {
  type CircuitDrawing,
  type CircuitLine,
  type CircuitNode,
  circuitDrawingSvg,
} from './circuit-drawing.ts';
export { type ClosingCover, type ClosingLine, closingLineSvg } from './closing-line.ts';
export { type CoverMark, closingLineText } from './closing-line-text.ts';
export { type CostChart, type CostPoint, costFrontierSvg } from './cost-frontier.ts';
export { type CostMark, costFrontierText } from './cost-frontier-text.ts';
export { type FaceMap, type FaceMapSpot, faceMapSvg } from './face-map.ts';
export { type FlowChart, type FlowPart, flowBarsSvg } from './flow-bars.ts';
export { type GrooveRing, grooveRingSvg } from './groove-ring.ts';
export { type Leaf, type LeafLadder, leafLadderSvg } from './leaf-ladder.ts';
export { type LimitRail, limitRailSvg } from './limit-rail.ts';
export { limitRailText, type Rail } from './limit-rail-text.ts';
export { orbitSvg } from './orbit.ts';
export { type PressureChart, pressureCurveSvg } from './pressure-curve.ts';
export { type Curve, pressureCurveText } from './pressure-curve-text.ts';
export type { GaugePoint, PressureLimit, PressureLine } from './pressure-field.ts';
export { type MapMark, type PressureMapChart, pressureMapSvg } from './pressure-map.ts';
export { type PressureTable, pressureMapText } from './pressure-map-text.ts';
export { type PressureStair, pressureStairSvg, type StairTread } from './pressure-stair.ts';
export { pressureStairText } from './pressure-stair-text.ts';
export type { RailBlock, RailPost, RailSet } from './rail-scale.ts';
export { type RepairChart, type RepairFigure, repairBarsSvg } from './repair-bars.ts';
export { type SpringLine, springLineSvg } from './spring-line.ts';
export type { Picture, Profile } from './svg/picture.ts';
export { type TimeChart, timeLineSvg } from './time-line.ts';
export { timeLineText } from './time-line-text.ts';
export {
  type MapCell,
  type Strip,
  type TintStep,
  type UnrolledMap,
  unrolledBoresSvg,
} from './unrolled-bores.ts';
export { type UnrolledFilm, unrolledFilmSvg } from './unrolled-film.ts';
export { type VerdictMark, verdictMarkSvg } from './verdict-mark.ts';
