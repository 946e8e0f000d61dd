import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { BODIES, type Kind } from './bodies.ts';
import { filledBody, isKnownKind } from './body-defaults.ts';

/** Present or left out, as JSON leaves out. */
const maybe = <T>(value: T) => fc.constantFrom<[T] | []>([value], []);
const given = <T>(key: string, [value]: [T] | []): Record<string, T> =>
  value === undefined ? {} : { [key]: value };

const instrument = fc
  .record({ coverage: maybe(3), share: maybe(0), note: maybe('old') })
  .map(({ coverage, share, note }) => ({
    instrument: 'mic',
    name: 'Micrometer',
    type: 'micrometer',
    uncertainty: { expanded: '0.0001 in', ...given('coverage', coverage), ...given('common_share', share) },
    trust: 'stated',
    ...given('note', note),
  }));
const reworked = maybe('used').map((condition) => ({
  part: 'shaft',
  what: 'ground',
  ...given('condition', condition),
}));
const offer = fc
  .record({
    restores: maybe([{ characteristic: 'a' }, { characteristic: 'b', judged_by: 'wear' }]),
    repairs: maybe([{ repair: 'pump' }]),
    needs: maybe(['other']),
    excludes: maybe(['third']),
  })
  .map(({ restores, repairs, needs, excludes }) => ({
    offer: 'one',
    name: 'Ground',
    price: 10,
    trust: 'quoted',
    ...given('restores', restores),
    ...given('repairs', repairs),
    ...given('needs', needs),
    ...given('excludes', excludes),
  }));

it.each([
  ['instrument-declared', instrument],
  ['part-reworked', reworked],
  ['repair-offered', offer],
] as const)('fills in what %s leaves out as its schema does', (kind, bodies) => {
  fc.assert(
    fc.property(bodies as fc.Arbitrary<Record<string, unknown>>, (body) => {
      expect(filledBody(kind, body)).toEqual(BODIES[kind].parse(body));
    }),
  );
});

it('knows the kinds that have a schema, and no other', () => {
  expect(Object.keys(BODIES).filter((kind) => !isKnownKind(kind))).toEqual([]);
  expect(['toString', 'reading ', ''].filter(isKnownKind)).toEqual([]);
  const changed = filledBody('note' satisfies Kind, { text: 'as it is' });
  expect(changed).toEqual({ text: 'as it is' });
});
