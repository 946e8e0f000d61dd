import { expect, it } from 'vitest';
import { type UnrolledFilm, unrolledFilmSvg } from './unrolled-film.ts';

const angles = Array.from({ length: 24 }, (_, i) => (i * 2 * Math.PI) / 24);
const rows = [0, 0.5, 1];
/** A film that carries over half a turn and is torn over the other. */
const film: UnrolledFilm = {
  angles,
  rows,
  pressure: angles.map((a) => rows.map((z) => Math.max(0, Math.sin(a)) * (1 - z * z))),
  fill: angles.map((a) => rows.map(() => (Math.sin(a) < 0 ? 0.6 : 1))),
  fed: angles.map((_, i) => rows.map((z) => i === 12 && z === 0)),
  least: { at: 2.6, text: 'least film 4 µm' },
  peak: 'peak 9 MPa',
};
const picture = { title: 'A film', desc: 'Pressure in it.', width: 640, profile: 'desk' as const };

const count = (text: string, what: RegExp) => text.match(what)?.length ?? 0;

it('says what it shows, and draws nothing that is no number', () => {
  const text = unrolledFilmSvg(film, picture);
  for (const word of ['least film 4 \u03bcm', 'peak 9 MPa', 'film ruptured', 'oil comes in', '180°'])
    expect(text).toContain(word);
  expect(text).not.toMatch(/NaN|Infinity|undefined/);
});

it('tints more where more of the film is under pressure, and hatches where it is torn', () => {
  const flat = { ...film, pressure: film.pressure.map((slice) => slice.map(() => 0)) };
  const tints = (one: UnrolledFilm) =>
    count(unrolledFilmSvg(one, picture), /fill-opacity="0\.(09|18|28|39)"/g);
  expect(tints(film)).toBeGreaterThan(tints(flat));
  const whole = { ...film, fill: film.fill.map((slice) => slice.map(() => 1)) };
  const lines = (one: UnrolledFilm) => count(unrolledFilmSvg(one, picture), /<line /g);
  // Eleven slices are torn, each in both halves of two rows and in the one in the middle.
  expect(lines(film) - lines(whole)).toBe(11 * 5);
});

it('marks the least film where it is, whichever way round the angle was counted', () => {
  const at = (angle: number) => unrolledFilmSvg({ ...film, least: { ...film.least, at: angle } }, picture);
  expect(at(2.6 - 2 * Math.PI)).toBe(at(2.6));
});

it('sets the words of its key beside or under one another, never over one another', () => {
  for (const [width, profile] of [
    [358, 'phone'],
    [640, 'desk'],
  ] as const) {
    const places = [
      ...unrolledFilmSvg(film, { ...picture, width, profile }).matchAll(
        /data-mark="key" transform="translate\(([\d.]+) ([\d.]+)\)".*?font-size="([\d.]+)"[^>]*>([^<]*)</g,
      ),
    ].map(([, x, y, size, text]) => ({
      x: Number(x),
      y: Number(y),
      wide: text!.length * Number(size) * 0.4,
    }));
    expect(places).toHaveLength(3);
    for (const [i, one] of places.entries())
      for (const other of places.slice(i + 1))
        expect(one.y !== other.y || one.x + one.wide < other.x, JSON.stringify(places)).toBe(true);
  }
});
