import { Taps } from '../../parts/taps.tsx';

const USUAL = ['1 day', '3 days', '1 week', '2 weeks', '4 weeks', '6 weeks'];

interface Given {
  readonly legend: string;
  readonly said: string;
  readonly say: (text: string) => void;
  /** Times offered by a tap; those of a delivery when absent. */
  readonly usual?: readonly string[];
}

/** A time in days or weeks: by a tap, or typed. */
export function LeadTime({ legend, said, say, usual = USUAL }: Given) {
  return (
    <div class="wide">
      <Taps
        legend={legend}
        options={usual.map((value) => ({ value, words: value }))}
        chosen={said}
        choose={say}
      />
      <label>
        Or typed, such as 10 days
        <input value={said} maxLength={40} onInput={(event) => say(event.currentTarget.value)} />
      </label>
    </div>
  );
}
