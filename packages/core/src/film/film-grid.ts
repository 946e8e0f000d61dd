import {
  cubeIntegral,
  gapAngle,
  inverseCubeIntegral,
  inverseSquareIntegral,
  sommerfeldAngle,
} from './gap.ts';

/**
 * The points at which the pressure of a film is sought: slices round the bearing, rows from the middle (or from
 * the edge of a full groove) to the edge. Lengths in journal radii, gaps in radial clearances, pressures in
 * μ ω R²/c², flows in c U R.
 */
export interface FilmGrid {
  readonly slices: number;
  /** Rows of points, the last one on the edge. */
  readonly rows: number;
  /** Distance of each row from the middle plane. */
  readonly z: Float64Array;
  /** Width that belongs to each row. */
  readonly strip: Float64Array;
  /** Weight of each row in an integral along the bearing, exact for parabolas between features. */
  readonly weight: Float64Array;
  /** By slice: angle from the widest gap [rad], and its sine and cosine integrated over what belongs to it. */
  readonly theta: Float64Array;
  readonly sines: Float64Array;
  readonly cosines: Float64Array;
  /** Angle that belongs to the slice [rad] */
  readonly arc: Float64Array;
  /** Mean of 1/h over that angle, times the angle. */
  readonly shear: Float64Array;
  /** By slice, of the way to the next one: drag ½ ∫h⁻²/∫h⁻³, and conductance 1/(12 ∫h⁻³). */
  readonly drag: Float64Array;
  readonly along: Float64Array;
  /** By slice: conductance across it per length, ∫h³/12. */
  readonly across: Float64Array;
}

/** Weights that integrate a function given at rising points, by the mean of the parabolas either side of each interval. */
function parabolaWeights(x: readonly number[], into: Float64Array, from: number): void {
  const n = x.length;
  const add = (a: number, b: number, c: number, lo: number, hi: number, share: number): void => {
    const [xa, xb, xc] = [x[a]!, x[b]!, x[c]!];
    // ∫ (t−u)(t−v) dt over the interval
    const product = (u: number, v: number): number => {
      const at = (t: number): number => (t * t * t) / 3 - ((u + v) * t * t) / 2 + u * v * t;
      return at(hi) - at(lo);
    };
    into[from + a]! += (share * product(xb, xc)) / ((xa - xb) * (xa - xc));
    into[from + b]! += (share * product(xa, xc)) / ((xb - xa) * (xb - xc));
    into[from + c]! += (share * product(xa, xb)) / ((xc - xa) * (xc - xb));
  };
  if (n === 2) {
    const half = (x[1]! - x[0]!) / 2;
    into[from]! += half;
    into[from + 1]! += half;
    return;
  }
  for (let i = 0; i + 1 < n; i++) {
    const [lo, hi] = [x[i]!, x[i + 1]!];
    const left = i > 0;
    const right = i + 2 < n;
    const share = left && right ? 0.5 : 1;
    if (left) add(i - 1, i, i + 1, lo, hi, share);
    if (right) add(i, i + 1, i + 2, lo, hi, share);
  }
}

/** Rows: the points along the bearing, given as runs between features; a run ends where the next begins. */
export interface Rows {
  readonly z: Float64Array;
  readonly strip: Float64Array;
  readonly weight: Float64Array;
}

export function rowsOf(runs: readonly (readonly number[])[]): Rows {
  const z: number[] = [];
  runs.forEach((run, k) => {
    z.push(...(k === 0 ? run : run.slice(1)));
  });
  const n = z.length;
  const strip = new Float64Array(n);
  for (let j = 0; j + 1 < n; j++) {
    const half = (z[j + 1]! - z[j]!) / 2;
    strip[j]! += half;
    strip[j + 1]! += half;
  }
  const weight = new Float64Array(n);
  let from = 0;
  for (const run of runs) {
    parabolaWeights(run, weight, from);
    from += run.length - 1;
  }
  return { z: Float64Array.from(z), strip, weight };
}

/** Room for a grid of so many slices, to be filled for one eccentricity after the other. */
export function emptyGrid(slices: number, rows: Rows): FilmGrid {
  const room = () => new Float64Array(slices);
  return {
    slices,
    rows: rows.z.length,
    ...rows,
    theta: room(),
    sines: room(),
    cosines: room(),
    arc: room(),
    shear: room(),
    drag: room(),
    along: room(),
    across: room(),
  };
}

/** Fills a grid for an eccentricity ratio, its slices at rising angles γ that go less than once round. */
export function fillGrid(grid: FilmGrid, e: number, gammas: Float64Array): void {
  const n = grid.slices;
  const root = Math.sqrt(1 - e * e);
  const TURN = 2 * Math.PI;
  let faceGamma = (gammas[n - 1]! + gammas[0]! - TURN) / 2;
  let face = gapAngle(e, faceGamma);
  const firstFace = face;
  let faceCube = cubeIntegral(e, face);
  const firstCube = faceCube;
  let square = inverseSquareIntegral(e, gammas[0]!);
  let cube = inverseCubeIntegral(e, gammas[0]!);
  const [firstSquare, firstInverse] = [square, cube];
  const [roundSquare, roundInverse, roundCube] = [
    inverseSquareIntegral(e, TURN),
    inverseCubeIntegral(e, TURN),
    cubeIntegral(e, TURN),
  ];
  for (let i = 0; i < n; i++) {
    const last = i === n - 1;
    const nextGamma = last ? gammas[0]! + TURN : gammas[i + 1]!;
    const nextFaceGamma = (gammas[i]! + nextGamma) / 2;
    const nextFace = last ? firstFace + TURN : gapAngle(e, nextFaceGamma);
    const nextFaceCube = last ? firstCube + roundCube : cubeIntegral(e, nextFace);
    const nextSquare = last ? firstSquare + roundSquare : inverseSquareIntegral(e, nextGamma);
    const nextInverse = last ? firstInverse + roundInverse : inverseCubeIntegral(e, nextGamma);
    grid.theta[i] = gapAngle(e, gammas[i]!);
    grid.sines[i] = Math.cos(face) - Math.cos(nextFace);
    grid.cosines[i] = Math.sin(nextFace) - Math.sin(face);
    grid.arc[i] = nextFace - face;
    // ∫ dθ/h is γ/√(1−ε²).
    grid.shear[i] = (nextFaceGamma - faceGamma) / root;
    grid.across[i] = (nextFaceCube - faceCube) / 12;
    const inverse = nextInverse - cube;
    grid.drag[i] = (nextSquare - square) / (2 * inverse);
    grid.along[i] = 1 / (12 * inverse);
    face = nextFace;
    faceGamma = nextFaceGamma;
    faceCube = nextFaceCube;
    square = nextSquare;
    cube = nextInverse;
  }
}

/**
 * Angles γ of the slices between fixed points round the bearing: crowded towards the ends of every run.
 *
 * @param marks   rising angles θ [rad], less than once round
 * @param counts  intervals of the run that begins at each mark
 * @param crowd   0 even to under 1
 */
export function slicesBetween(
  e: number,
  marks: readonly number[],
  counts: readonly number[],
  crowd: number,
  into: Float64Array,
): void {
  const TURN = 2 * Math.PI;
  let k = 0;
  for (let m = 0; m < marks.length; m++) {
    const from = sommerfeldAngle(e, marks[m]!);
    const to =
      m + 1 < marks.length ? sommerfeldAngle(e, marks[m + 1]!) : sommerfeldAngle(e, marks[0]!) + TURN;
    const n = counts[m]!;
    for (let i = 0; i < n; i++) {
      const u = i / n;
      const pulled = n > 2 ? u - (crowd * Math.sin(TURN * u)) / TURN : u;
      into[k++] = from + (to - from) * pulled;
    }
  }
}
