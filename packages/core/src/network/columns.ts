import type { ElementConditions, FlowLaw } from './flow-law.ts';

/** A column of numbers, one an entry. */
const column = (size: number): Float64Array => new Float64Array(size);

/**
 * What every entry of a shape has: its ends, its element, its film and the head of a turning drilling.
 * Classes rather than literals: the hot loops are compiled for one layout of each, whichever network comes next.
 */
export class Entries {
  readonly size: number;
  /** Nodes; the sump is the one after the last. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Where the two nodes' coupling lies among the matrix's off-diagonal entries. */
  readonly slot: Int32Array;
  readonly element: Int32Array;
  /** Which film's oil. */
  readonly film: Int32Array;
  /** Head by turning at unit density and speed [m²], by height at unit density [m²/s²], and both as they are [Pa]. */
  readonly lift: Float64Array;
  readonly fall: Float64Array;
  readonly head: Float64Array;
  /** As the balance last reckoned it [m³/s]. */
  readonly flow: Float64Array;

  constructor(size: number) {
    this.size = size;
    this.from = new Int32Array(size);
    this.to = new Int32Array(size);
    this.slot = new Int32Array(size);
    this.element = new Int32Array(size);
    this.film = new Int32Array(size);
    this.lift = column(size);
    this.fall = column(size);
    this.head = column(size);
    this.flow = column(size);
  }
}

export class Films extends Entries {
  readonly strength: Float64Array;
  readonly gap: Float64Array;
  readonly growth: Uint8Array;
  /** ε where it was told, −1 where a load says it. */
  readonly told: Float64Array;
  readonly load: Float64Array;
  readonly loadPerKrpm2: Float64Array;
  readonly stiffness: Float64Array;
  readonly eccentricity: Float64Array;
  readonly conductance: Float64Array;

  constructor(size: number) {
    super(size);
    this.strength = column(size);
    this.gap = column(size);
    this.growth = new Uint8Array(size);
    this.told = column(size);
    this.load = column(size);
    this.loadPerKrpm2 = column(size);
    this.stiffness = column(size);
    this.eccentricity = column(size);
    this.conductance = column(size);
  }
}

export class Drawn extends Entries {
  /** The entry among the films whose gap and eccentricity count. */
  readonly bearing: Int32Array;
  readonly amount: Float64Array;
  readonly half: Float64Array;
  readonly most: Float64Array;

  constructor(size: number) {
    super(size);
    this.bearing = new Int32Array(size);
    this.amount = column(size);
    this.half = column(size);
    this.most = column(size);
  }
}

export class Deliveries extends Entries {
  readonly perRadian: Float64Array;

  constructor(size: number) {
    super(size);
    this.perRadian = column(size);
  }
}

class Ports extends Entries {
  readonly area: Float64Array;
  readonly jet: Float64Array;

  constructor(size: number) {
    super(size);
    this.area = column(size);
    this.jet = column(size);
  }
}

export class Holes extends Ports {
  readonly diameter: Float64Array;
  readonly creep: Float64Array;
  /** 1 where the creeping limit counts, else 0. */
  readonly creeping: Float64Array;
  /** Pressure under which its flow turns linear [Pa] */
  readonly soft: Float64Array;
  /** Of the ideal jet at 1 Pa: d √(2 ρ)/μ. */
  readonly reynolds: Float64Array;

  constructor(size: number) {
    super(size);
    this.diameter = column(size);
    this.creep = column(size);
    this.creeping = column(size);
    this.soft = column(size);
    this.reynolds = column(size);
  }
}

export class Valves extends Holes {
  readonly opening: Float64Array;
  readonly range: Float64Array;

  constructor(size: number) {
    super(size);
    this.opening = column(size);
    this.range = column(size);
  }
}

export class Reliefs extends Ports {
  readonly cracking0: Float64Array;
  readonly cracking: Float64Array;
  readonly perPascal: Float64Array;
  readonly fullest: Float64Array;

  constructor(size: number) {
    super(size);
    this.cracking0 = column(size);
    this.cracking = column(size);
    this.perPascal = column(size);
    this.fullest = column(size);
  }
}

export class Passages extends Entries {
  readonly linear0: Float64Array;
  readonly minor0: Float64Array;
  readonly turbulent0: Float64Array;
  readonly crossing0: Float64Array;
  readonly linear: Float64Array;
  readonly minor: Float64Array;
  readonly turbulent: Float64Array;
  readonly crossing: Float64Array;

  constructor(size: number) {
    super(size);
    this.linear0 = column(size);
    this.minor0 = column(size);
    this.turbulent0 = column(size);
    this.crossing0 = column(size);
    this.linear = column(size);
    this.minor = column(size);
    this.turbulent = column(size);
    this.crossing = column(size);
  }
}

export class Owns extends Entries {
  readonly count: Float64Array;
  readonly make: ((c: ElementConditions) => FlowLaw)[];
  readonly law: FlowLaw[];

  constructor(size: number) {
    super(size);
    this.count = column(size);
    this.make = new Array(size);
    this.law = new Array(size);
  }
}
