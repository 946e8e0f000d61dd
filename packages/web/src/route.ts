import { signal } from '@preact/signals';

export type PlaceName =
  | 'bench'
  | 'at'
  | 'maps'
  | 'decide'
  | 'oil'
  | 'loose'
  | 'covers'
  | 'sheet'
  | 'part'
  | 'book';

/** Where somebody is: `#/job/at/crank.main-journal/2%2Ffront%2F0`. Kept in the hash, so that any server will do. */
export interface Route {
  readonly job?: string;
  readonly place: PlaceName;
  readonly rest: readonly string[];
}

const PLACES: readonly PlaceName[] = [
  'bench',
  'at',
  'maps',
  'decide',
  'oil',
  'loose',
  'covers',
  'sheet',
  'part',
  'book',
];

function routeFrom(hash: string): Route {
  const [job, place, ...rest] = hash
    .replace(/^#\/?/, '')
    .split('/')
    .map((part) => {
      try {
        return decodeURIComponent(part);
      } catch {
        return part;
      }
    });
  const known = PLACES.find((name) => name === place) ?? 'bench';
  return { ...(job && { job }), place: known, rest };
}

export const hashOf = (job: string, place: PlaceName, ...rest: readonly string[]): string =>
  `#/${[job, place, ...rest].map(encodeURIComponent).join('/')}`;

export const route = signal<Route>(routeFrom(''));

export function followHash(): void {
  route.value = routeFrom(location.hash);
  addEventListener('hashchange', () => {
    route.value = routeFrom(location.hash);
  });
}

export function go(hash: string, replace = false): void {
  if (replace) history.replaceState(null, '', hash);
  else location.hash = hash;
  route.value = routeFrom(hash);
}
