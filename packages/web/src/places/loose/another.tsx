import { OwnWords } from '../../parts/taps.tsx';
import { go, hashOf } from '../../route.ts';
import { job } from '../../state/job.ts';
import { idFrom } from '../../words/id.ts';

interface Given {
  readonly section: string;
  /** What it is, for an id where its name gives none: `opening`. */
  readonly kind: string;
  /** Said to a screen reader: `Holes that most engines have`. */
  readonly legend: string;
  readonly usual: readonly string[];
  /** Names that are listed already. */
  readonly had: readonly string[];
}

/** One that is not listed yet: a usual one by a tap, any other in one's own words. */
export function Another({ section, kind, legend, usual, had }: Given) {
  const names = new Set(had.map((name) => name.toLowerCase()));
  const chosen = (name: string): void =>
    go(hashOf(job.value ?? '', 'loose', section, idFrom(name, kind), name));
  return (
    <>
      <h3>Another one</h3>
      <fieldset class="taps">
        <legend class="spoken">{legend}</legend>
        {usual
          .filter((name) => !names.has(name.toLowerCase()))
          .map((name) => (
            <button key={name} type="button" onClick={() => chosen(name)}>
              {name}
            </button>
          ))}
      </fieldset>
      <OwnWords label="Or in your own words" move="That one" give={chosen} />
    </>
  );
}
