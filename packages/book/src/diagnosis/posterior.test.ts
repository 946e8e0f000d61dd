import { describe, expect, it } from 'vitest';
import { oiledBench, reckoningOf } from '../testing/oiled-sheet.ts';
import { Seeded } from '../testing/seeded.ts';
import { faultyNetwork, observed } from './diagnosis.ts';
import { doubtsOf } from './doubts.ts';
import { faultFamilies } from './families.ts';
import { type Family, severityAt } from './family.ts';
import type { Departure, FaultyNetwork, Known } from './faulty-network.ts';
import { type Hypotheses, hypothesesOf, type Observable } from './hypotheses.ts';
import { fittedReadings, weighed } from './posterior.ts';
import { notToldApart } from './told-apart.ts';

const PSI = 6894.757;
const RPM = Math.PI / 30;
const HOT = 273.15 + 93;

const CONDITIONS = [
  [600, 293.15],
  [600, HOT],
  [1000, HOT],
  [2000, HOT],
  [3000, HOT],
] as const;

const observables = (u = 1.5 * PSI, conditions: readonly (readonly [number, number])[] = CONDITIONS) =>
  observed(
    conditions.map(([rpm, temperature], i) => ({
      entry: `entry ${i}`,
      said: { pressure: '', speed: '', instrument: 'gauge', when: 'as-found' as const },
      pressure: 0,
      speed: rpm * RPM,
      temperature,
      grade: 'thin',
      instrument: 'gauge',
      u,
      common: 0.5,
    })),
  );

function tried(known: Known, of: readonly Observable[]): { network: FaultyNetwork; hypotheses: Hypotheses } {
  const book = oiledBench({ measured: known === 'measured' }).book();
  const network = faultyNetwork(book, reckoningOf(book), known);
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  const families = faultFamilies(network.value.circuit, known, ['gauge']);
  const doubts = doubtsOf(network.value.circuit, known);
  return { network: network.value, hypotheses: hypothesesOf(network.value, families, doubts, of) };
}

/** Clearances as they are, where they were read: every source of doubt drawn once. */
function misread({ circuit, known }: FaultyNetwork, random: Seeded): Departure {
  const deviates = new Map<string, number>();
  const deviate = (source: string): number => {
    if (!deviates.has(source)) deviates.set(source, random.normal());
    return deviates.get(source)!;
  };
  return {
    factors: Object.fromEntries(
      circuit.parameters.flatMap(({ name, measured }) =>
        measured && known === 'measured'
          ? [
              [
                name,
                1 +
                  measured.terms.reduce((sum, { source, u }) => sum + u * deviate(source), 0) /
                    measured.value,
              ],
            ]
          : [],
      ),
    ),
  };
}

/** Readings of an engine drawn from the assumptions, each doubt and each error with it; solved anew, not by slopes. */
function drawn(
  { network, hypotheses }: { network: FaultyNetwork; hypotheses: Hypotheses },
  family: Family,
  random: Seeded,
  severity = random.even(),
): number[] {
  const { doubts, observables: of } = hypotheses;
  const variant = family.variants[random.pick(family.variants.map(() => 1))]!;
  const changes = variant.changes(family.severity ? severityAt(family.severity, severity) : 0);
  const departures = [...doubts.map(({ at }) => at(random.normal())), misread(network, random)];
  const common = random.normal();
  const offset = variant.gauge ? variant.gauge.offset * random.normal() : 0;
  const scale = variant.gauge ? 1 + variant.gauge.scale * random.normal() : 1;
  return of.map(({ setting, u, common: share, own }) => {
    const pressure = network.read(setting, changes, departures) * (1 + own * random.normal());
    const error = u(pressure) * (Math.sqrt(share) * common + Math.sqrt(1 - share) * random.normal());
    return pressure * scale + offset + error;
  });
}

describe('the probability of each family', () => {
  const of = observables();
  const strip = tried('before-strip', of);

  it('sums to one before and after, and stays what it was without readings', () => {
    const { families } = strip.hypotheses;
    expect(families.reduce((sum, { prior }) => sum + prior, 0)).toBeCloseTo(1, 12);
    const none = weighed(strip.hypotheses, []);
    none.families.forEach((p, f) => {
      expect(p).toBeCloseTo(families[f]!.prior, 12);
    });
    const some = weighed(
      strip.hypotheses,
      [38, 7.5, 14, 31, 40].map((psi) => psi * PSI),
    );
    expect(some.families.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
  });

  it('stays what it was when the gauge is worth nothing', () => {
    const blind = tried('before-strip', observables(1e4 * PSI));
    const after = weighed(
      blind.hypotheses,
      [38, 7.5, 14, 31, 40].map((psi) => psi * PSI),
    );
    after.families.forEach((p, f) => {
      expect(Math.abs(p - blind.hypotheses.families[f]!.prior)).toBeLessThan(1e-3);
    });
  });

  it('is the same in whatever order the readings come', () => {
    const values = [38, 7.5, 14, 31, 40].map((psi) => psi * PSI);
    const straight = weighed(strip.hypotheses, values);
    const order = [3, 0, 4, 2, 1];
    const turned = weighed(
      strip.hypotheses,
      order.map((i) => values[i]!),
      order,
    );
    turned.families.forEach((p, f) => {
      expect(p).toBeCloseTo(straight.families[f]!, 9);
    });
  });

  it.each(['before-strip', 'measured'] as const)(
    'means what it says, %s: of what is given p, about p is true',
    (known) => {
      const trial = known === 'before-strip' ? strip : tried(known, of);
      const { families } = trial.hypotheses;
      const random = new Seeded(11);
      const edges = [0, 0.02, 0.1, 0.3, 0.6, 0.9, 1.0001];
      const bins = edges.slice(1).map(() => ({ n: 0, said: 0, was: 0 }));
      let logScore = 0;
      let priorScore = 0;
      const runs = 500;
      for (let k = 0; k < runs; k++) {
        const truth = random.pick(families.map(({ prior }) => prior));
        const after = weighed(trial.hypotheses, drawn(trial, families[truth]!, random));
        after.families.forEach((p, f) => {
          const bin = bins[edges.findIndex((edge, i) => p >= edge && p < edges[i + 1]!)]!;
          bin.n += 1;
          bin.said += p;
          if (f === truth) bin.was += 1;
        });
        logScore += Math.log(after.families[truth]!) / runs;
        priorScore += Math.log(families[truth]!.prior) / runs;
      }
      // Five hundredths for what straight slopes leave out of crooked circuits, and two deviations of the count.
      for (const { n, said, was } of bins.filter((bin) => bin.n >= 20)) {
        const p = said / n;
        expect(Math.abs(was / n - p)).toBeLessThan(0.05 + 2 * Math.sqrt((p * (1 - p)) / n));
      }
      // The readings are worth something: the truth is given a fifth more than beforehand, as a rule.
      expect(logScore).toBeGreaterThan(priorScore + Math.log(1.2));
    },
  );

  it('of what the gauge can see is the true family’s, or of a set it cannot be told from', () => {
    const values = (family: Family, severity: number, trial = strip) =>
      drawn(trial, family, new Seeded(5), severity);
    const named = (id: string) => {
      const found = strip.hypotheses.families.findIndex((family) => family.id === id);
      expect(found).toBeGreaterThanOrEqual(0);
      return found;
    };
    for (const [id, severity] of [
      ['bearings:main bearings', 0.7],
      ['pump-faces:pump ends', 0.8],
      ['pump-tips:pump tips', 0.7],
      ['relief-open', 0.6],
      ['spring', 0.05],
      ['spring', 0.98],
      ['suction-air', 0.8],
      ['lost-plug', 0.6],
    ] as const) {
      const f = named(id);
      const readings = values(strip.hypotheses.families[f]!, severity);
      const after = weighed(strip.hypotheses, readings);
      const fitted = fittedReadings(strip.hypotheses, after, readings);
      const group = notToldApart(strip.hypotheses, after, fitted, readings).find((one) =>
        one.includes(f),
      ) ?? [f];
      const mass = group.reduce((sum, member) => sum + after.families[member]!, 0);
      expect(mass, id).toBeGreaterThan(0.6);
    }
  });

  it('cannot tell bearings from pump hot, where every leak is a film', () => {
    const hot = tried('before-strip', observables(1.5 * PSI, CONDITIONS.slice(1, 3)));
    const { families } = hot.hypotheses;
    const readings = [9, 16].map((psi) => psi * PSI);
    const after = weighed(hot.hypotheses, readings);
    const fitted = fittedReadings(hot.hypotheses, after, readings);
    const [group] = notToldApart(hot.hypotheses, after, fitted, readings);
    const kinds = group!.map((f) => families[f]!.kind);
    expect(kinds).toContain('bearings');
    expect(kinds).toContain('pump-faces');
    expect(kinds).toContain('pump-tips');
  });

  it('sees a gauge that is out at every reading alike, once the clearances are measured', () => {
    const measured = tried('measured', of);
    const true_ = of.map(({ setting }) => measured.network.read(setting));
    const gauge = measured.hypotheses.families.findIndex(({ kind }) => kind === 'gauge');
    const right = weighed(measured.hypotheses, true_);
    const over = weighed(
      measured.hypotheses,
      true_.map((p) => p + 14 * PSI),
    );
    expect(right.families[0]).toBeGreaterThan(0.7);
    expect(over.families[gauge]).toBeGreaterThan(0.5);
  });
});
