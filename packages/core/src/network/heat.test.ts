import { expect, it } from 'vitest';
import { plainBearingFor, plainFilm } from '../film/plain-film.ts';
import { filmRise, OIL_HEAT, petroffPower } from '../oil/film-temperature.ts';
import { metre, pascalSecond, radianPerSecond } from '../units/si.ts';
import { heatedNetwork } from './heat.ts';
import { compiledNetwork, solvedNetwork } from './network.ts';

const SPEED = (2000 * Math.PI) / 30;
const MAIN = {
  id: 'main',
  law: 'groove-bearing',
  from: 'gallery',
  diameter: '2.5 in',
  land_length: '0.6 in',
  radial_clearance: '1 thou',
  eccentricity_ratio: 0.6,
  film_rise: 12,
};
const ROD = {
  id: 'rod',
  law: 'hole-bearing',
  from: 'gallery',
  diameter: '2.125 in',
  length: '1.25 in',
  hole_diameter: '0.25 in',
  hole: 'rotating',
  radial_clearance: '0.9 thou',
  eccentricity_ratio: 0.7,
  film_rise: 12,
};

const network = (
  displacement = '0.6 in3',
  fluid: object = { kv40: '93 mm2/s', kv100: '10.8 mm2/s', density15: '885 kg/m3' },
) => {
  const read = compiledNetwork({
    gauge: 'gallery',
    speed: SPEED,
    temperature: '93 degC',
    fluid,
    elements: [{ id: 'pump', law: 'gear-pump', to: 'gallery', displacement, speed_ratio: 0.5 }, MAIN, ROD],
  });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
};
const heated = (...args: Parameters<typeof heatedNetwork>) => {
  const answer = heatedNetwork(...args);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
};
const BOTH = [
  { element: 'main', load: 4000 },
  { element: 'rod', load: 5000 },
];

it('makes of friction the heat of Petroff’s law, torque times speed', () => {
  const power = petroffPower(
    metre(0.025),
    metre(0.03),
    metre(50e-6),
    pascalSecond(0.01),
    radianPerSecond(300),
  );
  // By hand: 2π · 0.01 · 0.025³ · 0.03 · 300²/50e-6 = 53.01 W
  expect(power).toBeCloseTo(53.01, 2);
  // Shear μ ω R/c on the area 2π R L at the arm R.
  expect(power).toBeCloseTo(((0.01 * 300 * 0.025) / 50e-6) * 2 * Math.PI * 0.025 * 0.03 * 0.025 * 300, 9);
});

it('warms the film by half of what its oil gains, and without limit where nothing flows', () => {
  expect(filmRise(90, 5e-6)).toBeCloseTo(5, 12);
  expect(filmRise(90, 0)).toBe(Number.POSITIVE_INFINITY);
  expect(filmRise(0, 0)).toBe(0);
});

it('settles where friction and flow agree, and the network balances with those very films', () => {
  const { solved, films } = heated(network(), {}, BOTH);
  for (const film of films) {
    expect(film.carried).toBe(true);
    expect(film.rise).toBeGreaterThan(0);
    expect(film.power / (2 * OIL_HEAT * (film.flow + film.drawn))).toBeCloseTo(film.rise, 3);
  }
  const again = solvedNetwork(network(), {
    parameters: Object.fromEntries(
      films.flatMap((film) => [
        [`${film.element}.film_rise`, film.rise],
        [`${film.element}.eccentricity_ratio`, film.eccentricity],
      ]),
    ),
  });
  expect(again.ok && again.value.pressures.gallery! / solved.pressures.gallery!).toBeCloseTo(1, 6);
});

it('counts for a hole-fed bearing the oil its journal draws, about U c L ε, and for a grooved one none', () => {
  const [main, rod] = heated(network(), {}, BOTH).films;
  expect(main!.drawn).toBe(0);
  const ideal = ((SPEED * 0.053975) / 2) * 22.86e-6 * 0.03175 * rod!.eccentricity;
  // The standard's fit to finite bearings gives 1 − 0.223 (L/D)² of it, within 1.2 % of a finite table.
  expect(Math.abs(rod!.drawn / ideal / (1 - 0.223 * (1.25 / 2.125) ** 2) - 1)).toBeLessThan(0.012);
});

it('runs the journal out, and makes of friction, what the film of its own length does under that load', () => {
  const { films } = heated(network(), {}, BOTH);
  const sizes = [
    { land: 0.01524, lands: 2, radius: 0.03175, clearance: 25.4e-6, load: 4000 },
    { land: 0.03175, lands: 1, radius: 0.0269875, clearance: 22.86e-6, load: 5000 },
  ];
  sizes.forEach(({ land, lands, radius, clearance, load }, i) => {
    const { eccentricity, viscosity, power, solved } = films[i]!;
    const n = SPEED / (2 * Math.PI);
    const s = ((radius / clearance) ** 2 * viscosity * n * 2 * radius * land) / (load / lands);
    const alone = plainBearingFor(plainFilm(land / (2 * radius)), s)!;
    expect(Math.abs(eccentricity - alone.eccentricity) / (1 - eccentricity)).toBeLessThan(0.01);
    // Heat is friction × load × speed of the surface.
    const heat = ((alone.friction * clearance) / radius) * load * SPEED * radius;
    expect(Math.abs(power / heat - 1)).toBeLessThan(0.01);
    expect(solved).toBe(true);
  });
});

it('comes to the same films from a cold start and from a hot one', () => {
  const from = (rise: number) =>
    heated(network(), { parameters: { 'main.film_rise': rise, 'rod.film_rise': rise } }, BOTH).films;
  const [cold, hot] = [from(0), from(100)];
  for (const i of [0, 1]) expect(cold[i]!.rise).toBeCloseTo(hot[i]!.rise, 2);
});

it('with an oil that does not thin finds at once what the formula says', () => {
  const { films, rounds } = heated(
    network('0.6 in3', { dynamic_viscosity: '8 mPa.s', density: '830 kg/m3' }),
    {},
    [{ element: 'main' }],
  );
  expect(rounds).toBeLessThan(4);
  expect(films[0]!.eccentricity).toBe(0.6);
  expect(films[0]!.rise).toBeCloseTo(filmRise(films[0]!.power, films[0]!.flow), 6);
});

it('takes the load of the file where the file has one', () => {
  const elements = [
    { id: 'pump', law: 'gear-pump', to: 'gallery', displacement: '0.6 in3', speed_ratio: 0.5 },
    { ...MAIN, eccentricity_ratio: undefined, load: '3000 N', load_per_krpm2: '250 N' },
  ].map((element) => JSON.parse(JSON.stringify(element)) as object);
  const read = compiledNetwork({
    gauge: 'gallery',
    fluid: { dynamic_viscosity: '8 mPa.s', density: '830 kg/m3' },
    elements,
  });
  const answer = read.ok
    ? heatedNetwork(read.value, { speed: SPEED, temperature: 366 }, [{ element: 'main' }])
    : read;
  const s = ((0.03175 / 25.4e-6) ** 2 * 0.008 * (SPEED / (2 * Math.PI)) * 0.0635 * 0.01524) / 2000;
  const alone = plainBearingFor(plainFilm(0.01524 / 0.0635), s)!;
  expect(answer.ok && answer.value.films[0]!.eccentricity).toBeCloseTo(alone.eccentricity, 3);
});

it('says so of a film whose oil cannot carry its heat, and of what is no bearing', () => {
  const starved = heated(network('0.0002 in3'), { speed: 600, temperature: 300 }, BOTH);
  expect(starved.films.map(({ carried }) => carried)).toEqual([false, true]);
  const wrong = heatedNetwork(network(), {}, [{ element: 'pump' }]);
  expect(wrong.ok ? [] : wrong.issues.map(({ code }) => code)).toEqual(['network/not-a-bearing']);
});

it('asks for speed and temperature like the network itself', () => {
  const read = compiledNetwork({
    gauge: 'gallery',
    fluid: { dynamic_viscosity: '8 mPa.s', density: '830 kg/m3' },
    elements: [
      { id: 'pump', law: 'gear-pump', to: 'gallery', displacement: '0.6 in3', speed_ratio: 0.5 },
      MAIN,
    ],
  });
  const answer = read.ok ? heatedNetwork(read.value, {}, [{ element: 'main' }]) : read;
  expect(answer.ok ? [] : answer.issues.map(({ at }) => at)).toEqual(['/speed', '/temperature']);
});

it('says when the films do not settle', () => {
  // An eccentricity that jumps to and fro leaves nothing to settle at.
  let out = false;
  const restless = () => {
    out = !out;
    return { eccentricity: out ? 0.1 : 0.95, drag: out ? 1 : 3, side: 0, within: true };
  };
  const answer = heatedNetwork(network(), {}, [{ element: 'main', load: 4000 }], restless);
  expect(answer.ok ? [] : answer.issues.map(({ code }) => code)).toEqual(['network/films-not-settled']);
});
