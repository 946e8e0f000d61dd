import type { Faults } from './fault.ts';
import { characteristicsIn } from './relation.ts';
import type { Characteristic } from './sheet.ts';

/** Notes every ring of characteristics that rest on one another, each once, by name. */
export function cycleFaults(
  characteristics: readonly Characteristic[],
  byId: ReadonlyMap<string, Characteristic>,
  faults: Faults,
): void {
  const restsOn = (c: Characteristic): string[] =>
    [
      ...(c.relation === undefined ? [] : [c.relation]),
      ...Object.values(c.read_as ?? {}).flatMap(({ plus = [] }) => plus.map(({ of }) => of)),
    ].flatMap(characteristicsIn);
  const done = new Set<string>();
  for (const start of characteristics) {
    // Depth first with its own stack: a chain may be longer than the call stack.
    const way: { id: string; rest: string[] }[] = [];
    const enter = (id: string): void => {
      const c = byId.get(id);
      if (c && !done.has(id)) way.push({ id, rest: restsOn(c) });
    };
    enter(start.id);
    while (way.length > 0) {
      const here = way.at(-1)!;
      const next = here.rest.shift();
      if (next === undefined) {
        done.add(here.id);
        way.pop();
        continue;
      }
      const at = way.findIndex(({ id }) => id === next);
      if (at < 0) {
        enter(next);
        continue;
      }
      const ring = [...way.slice(at).map(({ id }) => id), next].join(' → ');
      const index = characteristics.findIndex(({ id }) => id === next);
      faults.add(
        'cycle',
        ['characteristics', index],
        ring,
        'relations that end in something measured',
        `${next} rests on itself: ${ring}. Take one of them out of the ring.`,
      );
    }
  }
}
