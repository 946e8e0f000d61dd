import type {
  FilledCrank,
  FilmField,
  FilmPrediction,
  MeasuringMove,
  Narrowing,
  Planning,
  RepairPlan,
  Running,
} from '@fettle/book';
import type { Issue, Outcome, Uncertain } from '@fettle/core';
import type { WeighedFaults } from './diagnosis-weighed.ts';
import type { Grounds } from './grounds.ts';

// What the page asks of its worker and what comes back: plain data, for it is posted.

export interface Tried {
  readonly repairs: readonly string[];
  readonly values: Readonly<Record<string, number>>;
}

type WithGrade = { readonly grade: string | undefined };

export type Asked =
  | ({
      readonly about: 'plan';
      readonly confidence: number;
      readonly values: Tried['values'];
    } & WithGrade)
  | ({ readonly about: 'trials'; readonly running: readonly Running[]; readonly thought: Tried } & WithGrade)
  | { readonly about: 'faults'; readonly grounds: Grounds }
  | ({ readonly about: 'narrowing'; readonly running: Running } & WithGrade)
  | ({
      readonly about: 'film';
      readonly running: Running;
      /** Pressure of the charge over the air outside. */
      readonly load: number;
      /** The one with the thinnest film when absent. */
      readonly bearing: string | undefined;
    } & WithGrade)
  | ({ readonly about: 'flows'; readonly running: Running; readonly thought: Tried } & WithGrade);

/** A plan with what of its problem a page shows. */
export type PlanShown = RepairPlan &
  Pick<
    Planning,
    | 'confidence'
    | 'grade'
    | 'conditions'
    | 'offers'
    | 'requirements'
    | 'refused'
    | 'unoffered'
    | 'unread'
    | 'days'
    | 'past'
    | 'dryBecause'
  > & { readonly moves: readonly MeasuringMove[] };

/** The pressures by so many draws. */
export interface Drawn {
  readonly trials: number;
  readonly of: number;
  readonly seed: number;
  /** One a condition: mean and standard uncertainty, and between what 95 % of the draws lie [Pa]. */
  readonly spreads: readonly {
    readonly mean: number;
    readonly u: number;
    readonly from: number;
    readonly to: number;
    readonly lost: number;
  }[];
}

export interface FilmShown {
  /** An issue: why there are no loads. */
  readonly crank: FilledCrank | Issue;
  readonly load: number;
  readonly prediction: FilmPrediction;
  readonly bearing?: string;
  readonly field?: FilmField;
}

export interface DoubtfulFlow {
  readonly element: string;
  readonly drains: boolean;
  readonly pumps: boolean;
  readonly flow: Uncertain;
}

export interface Answers {
  readonly plan: Outcome<PlanShown>;
  readonly trials: Outcome<Drawn>;
  readonly faults: Outcome<WeighedFaults>;
  readonly narrowing: Outcome<Narrowing>;
  readonly film: Outcome<FilmShown>;
  readonly flows: Outcome<readonly DoubtfulFlow[]>;
}
