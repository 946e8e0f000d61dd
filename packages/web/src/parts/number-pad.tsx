const KEYS = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '.', '0', 'back'] as const;

interface Pad {
  readonly press: (key: string) => void;
  readonly back: () => void;
}

/** Keys for a knuckle. The keyboard and a wedge type into the field itself. */
export function NumberPad({ press, back }: Pad) {
  return (
    <fieldset class="pad" aria-label="Number pad">
      {KEYS.map((key) =>
        key === 'back' ? (
          <button key={key} type="button" class="key" aria-label="Take back the last digit" onClick={back}>
            ⌫
          </button>
        ) : (
          <button
            key={key}
            type="button"
            class="key"
            aria-label={key === '.' ? 'point' : key}
            onClick={() => press(key)}
          >
            {key}
          </button>
        ),
      )}
    </fieldset>
  );
}
