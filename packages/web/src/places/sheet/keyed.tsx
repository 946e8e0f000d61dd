import { NumberPad } from '../../parts/number-pad.tsx';

interface KeyedField {
  readonly label: string;
  readonly text: string;
  readonly set: (text: string) => void;
}

interface Given {
  readonly fields: readonly KeyedField[];
  /** Which field the keys write into. */
  readonly at: number;
  readonly go: (at: number) => void;
  readonly unit: string;
  readonly setUnit: (unit: string) => void;
}

/** Numbers by keys as large as at the bench, into whichever field was touched last. */
export function Keyed({ fields, at, go, unit, setUnit }: Given) {
  const field = fields[at];
  return (
    <>
      <div class="keyed wide">
        {fields.map(({ label, text, set }, i) => (
          <label key={label} class={i === at ? 'at' : undefined}>
            {label}
            <input
              value={text}
              inputMode="none"
              autocomplete="off"
              spellcheck={false}
              maxLength={40}
              onFocus={() => go(i)}
              onInput={(event) => set(event.currentTarget.value)}
            />
          </label>
        ))}
        <label>
          Unit
          <input
            class="unit"
            value={unit}
            maxLength={12}
            autocomplete="off"
            onInput={(event) => setUnit(event.currentTarget.value)}
          />
        </label>
      </div>
      <div class="wide">
        <NumberPad
          press={(key) => field?.set(`${field.text}${key}`)}
          back={() => field?.set(field.text.slice(0, -1))}
        />
      </div>
    </>
  );
}
