import type { Body } from '@fettle/book';
import { parseQuantity } from '@fettle/core';
import { useState } from 'preact/hooks';
import { Taps } from '../../parts/taps.tsx';
import { clock } from '../../state/clock.ts';
import { book } from '../../state/job.ts';
import { faults } from './entered.ts';

const MINUTE = 60_000;

const STARTED = ['0', '5', '10', '30', '60', '120'] as const;
const startedWords = (minutes: string): string =>
  minutes === '0'
    ? 'Just now'
    : Number(minutes) < 60
      ? `${minutes} min ago`
      : `${Number(minutes) / 60} h ago`;
const WITHIN = ['5 min', '10 min', '15 min', '20 min'] as const;
const CURES = ['30 min', '1 h', '2 h', '4 h', '12 h', '24 h', '48 h'] as const;

const options = <T extends string>(values: readonly T[]) => values.map((value) => ({ value, words: value }));

interface Given {
  /** To be closed on while it is wet. */
  readonly wet: boolean;
  readonly enter: (said: Omit<Body<'joint-state'>, 'joint'>, read: string) => Promise<void>;
}

/** Since when, and the times of the sealant's own sheet. */
export function CureForm({ wet, enter }: Given) {
  const [ago, setAgo] = useState<(typeof STARTED)[number]>('0');
  const [within, setWithin] = useState('');
  const [cures, setCures] = useState('');
  const [product, setProduct] = useState('');
  const known = [...new Set([...book.value.joints.values()].flatMap(({ body }) => body.product ?? []))];
  const give = (): void => {
    const issues = [wet ? within : '', cures].flatMap((text) => {
      const read = text.trim() === '' ? undefined : parseQuantity(text, 'time');
      return read && !read.ok ? read.issues : [];
    });
    if (wet && within.trim() === '')
      issues.push({
        code: 'joint/time-missing',
        at: 'close_within',
        got: 'nothing',
        wanted: 'a time such as 10 min',
        message: 'Say within what time it must be closed: the sealant’s own sheet says it.',
      });
    faults.value = issues;
    if (issues.length > 0) return;
    void enter(
      {
        state: 'curing',
        ...(ago !== '0' && { started: new Date(clock.peek() - Number(ago) * MINUTE).toISOString() }),
        ...(wet && { close_within: within.trim() }),
        ...(cures.trim() !== '' && { cures_after: cures.trim() }),
        ...(product.trim() !== '' && { product: product.trim() }),
      },
      [
        wet ? `wet, to be closed within ${within.trim()}` : 'curing',
        cures.trim() === '' ? '' : `cured after ${cures.trim()}`,
        startedWords(ago).toLowerCase(),
      ]
        .filter((part) => part !== '')
        .join(', '),
    );
  };
  return (
    <form
      class="form cure-form"
      onSubmit={(event) => {
        event.preventDefault();
        give();
      }}
    >
      <p class="caution">
        The times are those of the sealant’s own sheet, at the warmth of the shop; cold lengthens them. Good
        air, and off the skin.
      </p>
      <Taps
        legend="It went on"
        options={STARTED.map((value) => ({ value, words: startedWords(value) }))}
        chosen={ago}
        choose={setAgo}
      />
      {wet ? <Time legend="It must be closed within" values={WITHIN} said={within} say={setWithin} /> : null}
      <Time legend="It is cured after" values={CURES} said={cures} say={setCures} />
      {known.length > 0 ? (
        <Taps legend="The sealant" options={options(known)} chosen={product} choose={setProduct} />
      ) : null}
      <label>
        {known.length > 0 ? 'Another sealant' : 'The sealant'}
        <input value={product} maxLength={200} onInput={(event) => setProduct(event.currentTarget.value)} />
      </label>
      <button type="submit" class="main-move">
        {wet ? 'It is wet' : 'It is curing'}
      </button>
    </form>
  );
}

interface TimeGiven {
  readonly legend: string;
  readonly values: readonly string[];
  readonly said: string;
  readonly say: (text: string) => void;
}

/** A time by a tap, or typed with its unit. */
function Time({ legend, values, said, say }: TimeGiven) {
  return (
    <>
      <Taps legend={legend} options={options(values)} chosen={said} choose={say} />
      <label>
        Or, with its unit
        <input value={said} maxLength={40} onInput={(event) => say(event.currentTarget.value)} />
      </label>
    </>
  );
}
