import { MAP_KINDS, type MapKind } from '@fettle/book';
import { setSetting, settings } from '../../state/desk.ts';
import { job } from '../../state/job.ts';
import { profile } from '../../state/profile.ts';

interface OfKind {
  readonly kind: MapKind;
  readonly known: boolean;
}

const NAMES: Readonly<Record<MapKind, string>> = {
  bores: 'Bores',
  journals: 'Journals',
  faces: 'Faces',
  lobes: 'Lobes',
  springs: 'Springs',
  valves: 'Valves',
  others: 'Others',
};

const key = (): string => `map kind ${job.value ?? ''}`;

/** The kind looked at last on this phone; none is chosen elsewhere, where there is room for all. */
function chosenKind(maps: readonly OfKind[]): MapKind | undefined {
  const said = settings.value[key()];
  return maps.find(({ kind }) => kind === said)?.kind;
}

/** On a phone the maps of the kind chosen, and none before; elsewhere all. */
export const ofKindChosen = <T extends OfKind>(maps: readonly T[]): readonly T[] => {
  if (profile.value !== 'phone') return maps;
  const chosen = chosenKind(maps);
  return maps.filter(({ kind }) => kind === chosen);
};

/** Of what a map is wanted; on a phone alone, where all of them are one long page. */
export function MapChoice({ maps }: { readonly maps: readonly OfKind[] }) {
  if (profile.value !== 'phone' || maps.length === 0) return null;
  const chosen = chosenKind(maps);
  if (chosen !== undefined)
    return (
      <div class="map-chosen">
        <h2>{NAMES[chosen]}</h2>
        <button type="button" onClick={() => void setSetting(key(), '')}>
          Other maps
        </button>
      </div>
    );
  return (
    <fieldset class="map-kinds">
      <legend>Of what?</legend>
      {MAP_KINDS.map((kind) => {
        const of = maps.filter((map) => map.kind === kind);
        const known = of.filter((map) => map.known).length;
        return of.length === 0 ? null : (
          <button key={kind} type="button" onClick={() => void setSetting(key(), kind)}>
            {NAMES[kind]}{' '}
            <small>{known === 0 ? 'not measured yet' : `${known} of ${of.length} measured`}</small>
          </button>
        );
      })}
    </fieldset>
  );
}
