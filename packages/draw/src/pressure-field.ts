/** One curve, such as hot or cold. */
export interface PressureLine {
  readonly name: string;
  readonly style: 'solid' | 'dashed' | 'dotted';
  /** In any order; low and high are the edges of the band. */
  readonly points: readonly {
    readonly speed: number;
    readonly value: number;
    readonly low?: number | undefined;
    readonly high?: number | undefined;
  }[];
}

/** A limit at one speed. */
export interface PressureLimit {
  readonly speed: number;
  readonly lower?: number | undefined;
  readonly upper?: number | undefined;
  readonly text: string;
}

/** What a real gauge said. */
export interface GaugePoint {
  readonly speed: number;
  readonly value: number;
  /** Half-width of the reading at about 95 %. */
  readonly half?: number | undefined;
  /** Drawn hollow. */
  readonly cold?: boolean | undefined;
}

/** Where speeds and pressures lie in the picture. */
export interface Field {
  readonly x: (speed: number) => number;
  readonly y: (pressure: number) => number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}
