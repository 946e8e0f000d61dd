import {
  type Assessment,
  asFittedNow,
  assessment,
  type Book,
  type EngineState,
  type FilledCircuit,
  filledCircuit,
  filledCrank,
  filmField,
  filmPrediction,
  gaugePressureSpread,
  measuringMoves,
  narrowing,
  oilShares,
  planningOf,
  Reckoning,
  repairPlan,
} from '@fettle/book';
import { CATALOGUE, failed, type Issue, linear, type Outcome, ok, standardUncertainty } from '@fettle/core';
import { weighedFaults } from './diagnosis-weighed.ts';
import type { Answers, Asked, DoubtfulFlow, Drawn, FilmShown, PlanShown, Tried } from './oil-asked.ts';
import { plain } from './plain.ts';
import { ThoughtReckoning } from './thought-reckoning.ts';

/** Draws after which the trials are shown: the first soon, the last all there are. */
const STAGES = [200, 600, 1200, 2000];
/** The same as the command line's when nothing is said. */
const SEED = 1;

/**
 * What takes longer than a frame, over one book. It runs in a worker, or in the page where there are none; every step
 * of an answer stands for itself, and the last one is whole.
 */
export class OilWork {
  private readonly book: Book;
  private judged: Assessment | undefined;
  /** Enough for the oil, and ready long before every verdict is. */
  private readonly reckoning: Reckoning;

  constructor(book: Book) {
    this.book = book;
    this.reckoning = new Reckoning(book, asFittedNow(book), CATALOGUE);
  }

  *answers(asked: Asked): Generator<Answers[Asked['about']]> {
    try {
      switch (asked.about) {
        case 'plan':
          yield this.plan(asked);
          return;
        case 'trials':
          yield* this.trials(asked);
          return;
        case 'faults':
          yield plain(weighedFaults(this.book, CATALOGUE, asked.grounds));
          return;
        case 'narrowing':
          yield narrowing(this.reckoning, CATALOGUE, asked.running, asked.grade);
          return;
        case 'film':
          yield this.film(asked);
          return;
        case 'flows':
          yield this.flows(asked);
          return;
      }
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      yield failed(noBalance(error.message));
    }
  }

  private assessed(): Assessment {
    this.judged ??= assessment(this.book, asFittedNow(this.book), CATALOGUE);
    return this.judged;
  }

  /** Verdicts stay those of the readings; only the oil goes by what is tried. */
  private plan({ confidence, grade, values }: Extract<Asked, { about: 'plan' }>): Outcome<PlanShown> {
    const { book } = this;
    const judged = this.assessed();
    const thought =
      Object.keys(values).length === 0
        ? judged
        : { ...judged, reckoning: new ThoughtReckoning(book, asFittedNow(book), values) };
    const planning = planningOf(book, thought, {
      confidence,
      now: Date.now(),
      ...(grade !== undefined && { grade }),
    });
    if (!planning.ok) return planning;
    const plan = repairPlan(planning.value);
    const moves = measuringMoves(planning.value, plan, judged.judgements);
    // Only what is plain: the rest holds functions, which no worker can post.
    const { conditions, offers, requirements, refused, unoffered, unread, days, past, dryBecause } =
      planning.value;
    return ok({
      confidence,
      grade: planning.value.grade,
      conditions,
      offers,
      requirements,
      refused,
      unoffered,
      unread,
      days,
      past,
      dryBecause,
      ...plan,
      moves,
    });
  }

  private circuit(grade: string | undefined): FilledCircuit {
    const circuit = filledCircuit(this.book, this.reckoning, grade);
    if (!circuit.ok) throw new RangeError(circuit.issues[0]!.message);
    return circuit.value;
  }

  private *trials({
    grade,
    running,
    thought,
  }: Extract<Asked, { about: 'trials' }>): Generator<Outcome<Drawn>> {
    const circuit = this.circuit(grade);
    for (const trials of STAGES)
      yield ok({
        trials,
        of: STAGES.at(-1)!,
        seed: SEED,
        spreads: running.map((one) => {
          const spread = gaugePressureSpread(circuit, one, stateOf(thought), { trials, seed: SEED });
          return {
            mean: spread.mean,
            u: spread.u,
            from: spread.quantile(0.025),
            to: spread.quantile(0.975),
            lost: spread.lost,
          };
        }),
      });
  }

  private film({ grade, running, load, bearing }: Extract<Asked, { about: 'film' }>): Outcome<FilmShown> {
    const circuit = this.circuit(grade);
    const crank = filledCrank(this.book, this.reckoning);
    if (!crank.ok && crank.issues[0]!.code !== 'film/no-crank') return crank;
    const prediction = filmPrediction(circuit, crank.ok ? crank.value : undefined, running, load);
    if (!prediction.ok) return prediction;
    const { films } = prediction.value;
    const film = films.find(({ element }) => element === bearing) ?? thinnest(films);
    const field = film && filmField(circuit, film, running);
    return ok({
      crank: crank.ok ? crank.value : crank.issues[0]!,
      load,
      prediction: prediction.value,
      ...(film && { bearing: film.element }),
      ...(field && { field }),
    });
  }

  /** How far each flow goes with the readings' doubt, to first order: central differences, as for the pressure. */
  private flows({ grade, running, thought }: Extract<Asked, { about: 'flows' }>): Outcome<DoubtfulFlow[]> {
    const circuit = this.circuit(grade);
    const state = stateOf(thought);
    const at = (values: Readonly<Record<string, number>>) =>
      oilShares(circuit, running, { ...state, values: { ...state.values, ...values } }).shares;
    const middle = at({});
    const slopes = circuit.parameters.flatMap(({ name, repair, measured }) => {
      const u = measured ? standardUncertainty(measured) : 0;
      if (!measured || u === 0 || name in state.values || state.repairs.includes(repair)) return [];
      const [more, less] = [at({ [name]: measured.value + u }), at({ [name]: measured.value - u })];
      return [{ of: measured, by: middle.map((_, i) => (more[i]!.flow - less[i]!.flow) / (2 * u)) }];
    });
    return ok(
      middle.map(({ element, flow, drains, pumps }, i) => ({
        element,
        drains,
        pumps,
        flow: {
          value: flow,
          terms: linear(slopes.map(({ of, by }) => ({ factor: by[i]!, of }))).terms,
        },
      })),
    );
  }
}

const stateOf = ({ repairs, values }: Tried): EngineState & { as: 'tried' } => ({
  as: 'tried',
  repairs,
  values,
});

const thinnest = (
  films: FilmShown['prediction']['films'],
): FilmShown['prediction']['films'][number] | undefined =>
  films.filter(({ orbit }) => orbit).toSorted((a, b) => a.orbit!.leastFilm - b.orbit!.leastFilm)[0] ??
  films[0];

const noBalance = (why: string): Issue => ({
  code: 'oil/no-balance',
  at: '',
  got: 'clearances with which the circuit finds no balance',
  wanted: 'clearances an engine runs with',
  message: `This cannot be worked out: ${why}`,
});
