import { useState } from 'preact/hooks';

interface Choice<T extends string> {
  readonly legend: string;
  readonly options: readonly { readonly value: T; readonly words: string }[];
  readonly chosen: T | undefined;
  readonly choose: (value: T) => void;
}

/** One of a few, by a tap. */
export function Taps<T extends string>({ legend, options, chosen, choose }: Choice<T>) {
  return (
    <fieldset class="taps">
      <legend>{legend}</legend>
      {options.map(({ value, words }) => (
        <button key={value} type="button" aria-pressed={chosen === value} onClick={() => choose(value)}>
          {words}
        </button>
      ))}
    </fieldset>
  );
}

interface Naming {
  readonly label: string;
  readonly move: string;
  readonly give: (words: string) => void;
}

/** Words of one's own, where no tap says it. */
export function OwnWords({ label, move, give }: Naming) {
  const [words, setWords] = useState('');
  return (
    <form
      class="row"
      onSubmit={(event) => {
        event.preventDefault();
        const said = words.trim();
        if (said === '') return;
        give(said);
        setWords('');
      }}
    >
      <label>
        {label}
        <input value={words} maxLength={120} onInput={(event) => setWords(event.currentTarget.value)} />
      </label>
      <button type="submit">{move}</button>
    </form>
  );
}
