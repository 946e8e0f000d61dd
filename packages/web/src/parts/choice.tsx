import type { ComponentChildren } from 'preact';

interface Given<T extends string | number> {
  readonly legend: string;
  /** Groups the buttons: one of a kind on the page. */
  readonly name: string;
  readonly options: readonly { readonly value: T; readonly word: ComponentChildren }[];
  readonly value: T | undefined;
  readonly choose: (value: T) => unknown;
}

/** One of a few, each large enough for a knuckle. */
export function Choice<T extends string | number>({ legend, name, options, value, choose }: Given<T>) {
  return (
    <fieldset class="choice">
      <legend>{legend}</legend>
      {options.map((one) => (
        <label key={one.value}>
          <input
            type="radio"
            name={name}
            checked={value === one.value}
            onChange={() => void choose(one.value)}
          />{' '}
          <span>{one.word}</span>
        </label>
      ))}
    </fieldset>
  );
}
