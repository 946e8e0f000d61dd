/** Pitches [mm] of each metric size [mm], coarse first where there is one. @source iso-261 */
const WITH_COARSE: Readonly<Record<string, readonly number[]>> = {
  '1.6': [0.35, 0.2],
  '2': [0.4, 0.25],
  '2.5': [0.45, 0.35],
  '3': [0.5, 0.35],
  '3.5': [0.6, 0.35],
  '4': [0.7, 0.5],
  '5': [0.8, 0.5],
  '6': [1, 0.75],
  '7': [1, 0.75],
  '8': [1.25, 1, 0.75],
  '9': [1.25, 1, 0.75],
  '10': [1.5, 1.25, 1, 0.75],
  '11': [1.5, 1, 0.75],
  '12': [1.75, 1.5, 1.25, 1],
  '14': [2, 1.5, 1.25, 1],
  '16': [2, 1.5, 1],
  '18': [2.5, 2, 1.5, 1],
  '20': [2.5, 2, 1.5, 1],
  '22': [2.5, 2, 1.5, 1],
  '24': [3, 2, 1.5, 1],
  '27': [3, 2, 1.5, 1],
  '30': [3.5, 3, 2, 1.5, 1],
  '33': [3.5, 3, 2, 1.5],
  '36': [4, 3, 2, 1.5],
  '39': [4, 3, 2, 1.5],
  '42': [4.5, 4, 3, 2, 1.5],
  '48': [5, 4, 3, 2, 1.5],
};

const FINE_ONLY: Readonly<Record<string, readonly number[]>> = {
  '15': [1.5, 1],
  '17': [1.5, 1],
  '25': [2, 1.5, 1],
  '26': [1.5],
  '28': [2, 1.5, 1],
  '32': [2, 1.5],
  '35': [1.5],
  '38': [1.5],
  '40': [3, 2, 1.5],
};

export interface MetricSize {
  readonly coarse?: number;
  readonly pitches: readonly number[];
}

/** The pitches a metric size is made with, or nothing when the standard has no such size. */
export function metricSize(millimetres: number): MetricSize | undefined {
  const key = String(millimetres);
  const pitches = WITH_COARSE[key];
  if (pitches) return { coarse: pitches[0]!, pitches };
  const fine = FINE_ONLY[key];
  return fine && { pitches: fine };
}
