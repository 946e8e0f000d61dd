import {
  amountOf,
  type Body,
  budgetOf,
  builtInstrument,
  INSTRUMENT_TYPES,
  readsAsUncertainty,
  type Setting,
} from '@fettle/book';
import { type Issue, parseQuantity } from '@fettle/core';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { book, write } from '../../state/job.ts';
import { lengthUnit } from '../../state/units.ts';
import { idFrom } from '../../words/id.ts';
import { BudgetBars } from './instrument-budget.tsx';

const USUAL_LEAVES = {
  inch: '0.0015 0.002 0.003 0.004 0.005 0.006 0.007 0.008 0.010 0.012 0.015 0.018 0.020 0.025',
  metric: '0.03 0.04 0.05 0.06 0.07 0.08 0.09 0.10 0.15 0.20 0.25 0.30 0.40 0.50 0.60 0.80 1.00',
};
type System = keyof typeof USUAL_LEAVES;

/** Another instrument, by its type: what is known of it makes its ±, or its owner states that whole. */
export function NewInstrument() {
  const [type, setType] = useState('micrometer');
  const [system, setSystem] = useState<System>(lengthUnit() === 'mm' ? 'metric' : 'inch');
  const [name, setName] = useState('');
  const [said, setSaid] = useState<Readonly<Record<string, string>>>({});
  const [setIn, setSetIn] = useState('');
  const [stated, setStated] = useState('');
  const [leaves, setLeaves] = useState<string | undefined>(undefined);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const known = INSTRUMENT_TYPES.get(type)!;
  const isLeaves = type === 'feeler leaves';
  const settings = Object.fromEntries(Object.entries(said).filter(([, text]) => text.trim() !== ''));
  const built = builtInstrument(book.value.instruments, {
    type,
    settings,
    system,
    ...(setIn !== '' && { setIn }),
  });
  const worked = built.ok ? budgetOf({ instrument: 'x', name, type, ...built.value }) : undefined;
  const whole = stated.trim() !== '';

  const declare = async (event: Event): Promise<void> => {
    event.preventDefault();
    const unit = system === 'inch' ? 'in' : 'mm';
    const owned = (leaves ?? USUAL_LEAVES[system])
      .split(/[\s,;]+/)
      .filter((one) => one !== '')
      .map((one) => `${one} ${unit}`);
    const found: Issue[] = whole ? statedIssues(stated) : built.ok ? [] : [...built.issues];
    if (isLeaves)
      for (const leaf of owned) {
        const read = parseQuantity(leaf, 'length');
        if (!read.ok) found.push(...read.issues);
      }
    setIssues(found);
    if (found.length > 0 || (!whole && !built.ok)) return;
    const called = name.trim() === '' ? `${type[0]!.toUpperCase()}${type.slice(1)}` : name.trim();
    let instrument = idFrom(called, 'instrument');
    for (let i = 2; book.value.instruments.has(instrument); i++)
      instrument = `${idFrom(called, 'instrument')}-${i}`;
    const uncertainty: Pick<Body<'instrument-declared'>, 'uncertainty' | 'trust'> = whole
      ? { uncertainty: { expanded: stated.trim(), coverage: 2, common_share: 0.5 }, trust: 'stated' }
      : (built as Extract<typeof built, { ok: true }>).value;
    const entries = await write([
      {
        kind: 'instrument-declared',
        body: {
          instrument,
          name: called,
          type,
          ...uncertainty,
          ...(setIn !== '' && { set_in: setIn }),
          ...(isLeaves && { leaves: owned }),
        },
      },
    ]);
    setIssues(entries.ok ? [] : entries.issues);
    if (!entries.ok) return;
    setName('');
    setStated('');
    setSaid({});
  };
  const say = (key: string, text: string): void => setSaid({ ...said, [key]: text });
  return (
    <form class="form two" onSubmit={(event) => void declare(event)}>
      <h2 class="wide">Add another</h2>
      <label>
        What it is
        <select
          value={type}
          onChange={(event) => {
            setType(event.currentTarget.value);
            setSaid({});
            setSetIn('');
          }}
        >
          {[...INSTRUMENT_TYPES.keys()].map((one) => (
            <option key={one}>{one}</option>
          ))}
        </select>
      </label>
      <label>
        Made in
        <select value={system} onChange={(event) => setSystem(event.currentTarget.value as System)}>
          <option value="inch">inches</option>
          <option value="metric">millimetres</option>
        </select>
      </label>
      <label>
        Called
        <input
          value={name}
          placeholder={type}
          maxLength={200}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      {known.settings.map((setting) => (
        <SettingField
          key={`${type} ${setting.key}`}
          setting={setting}
          usual={setting.usual[system === 'inch' ? 0 : 1]}
          text={said[setting.key] ?? ''}
          say={say}
        />
      ))}
      {known.chained === undefined ? null : (
        <label>
          {`${known.chained[0]!.toUpperCase()}${known.chained.slice(1)}`}
          <select value={setIn} onChange={(event) => setSetIn(event.currentTarget.value)}>
            <option value="">none of these</option>
            {[...book.value.instruments.values()]
              .filter(({ body }) => amountOf(body.uncertainty.expanded)?.kind === known.reads)
              .map(({ body }) => (
                <option key={body.instrument} value={body.instrument}>
                  {body.name}
                </option>
              ))}
          </select>
        </label>
      )}
      {isLeaves ? (
        <label class="wide">
          Leaves owned, in {system === 'inch' ? 'inches' : 'millimetres'}
          <textarea
            rows={2}
            value={leaves ?? USUAL_LEAVES[system]}
            onInput={(event) => setLeaves(event.currentTarget.value)}
          />
        </label>
      ) : null}
      <label class="wide">
        Or state its ± yourself, at about 95 %
        <input
          value={stated}
          placeholder={built.ok ? `${built.value.uncertainty.expanded}, as built below` : '0.0005 in'}
          maxLength={80}
          onInput={(event) => setStated(event.currentTarget.value)}
        />
        <small>As you have found it to be, or as its certificate says. Left empty, it is built.</small>
      </label>
      <div class="wide">
        {whole || !worked || !built.ok ? null : (
          <>
            <p>
              So it is good for <strong>±{built.value.uncertainty.expanded}</strong>:
            </p>
            <BudgetBars worked={worked} />
          </>
        )}
        <IssueLines issues={whole || built.ok ? issues : built.issues} />
        <button type="submit">Add it</button>
      </div>
    </form>
  );
}

function statedIssues(text: string): Issue[] {
  if (readsAsUncertainty(text)) return [];
  return [
    {
      code: 'instrument/unreadable-uncertainty',
      at: 'U',
      got: text,
      wanted: 'a quantity with its unit, or a share such as 3 %',
      message: `"${text}" does not read as an uncertainty. Say it with its unit, such as 0.0005 in, or as 3 %.`,
    },
  ];
}

interface Field {
  readonly setting: Setting;
  readonly usual: string;
  readonly text: string;
  readonly say: (key: string, text: string) => void;
}

function SettingField({ setting: { key, label, choices }, usual, text, say }: Field) {
  const words = `${label[0]!.toUpperCase()}${label.slice(1)}`;
  const id = `of-it-${key}`;
  return (
    <div class="setting">
      <label for={id}>{words}</label>
      {choices ? (
        <select
          id={id}
          value={text === '' ? usual : text}
          onChange={(event) => say(key, event.currentTarget.value)}
        >
          {choices.map((one) => (
            <option key={one}>{one}</option>
          ))}
        </select>
      ) : (
        <input
          id={id}
          value={text}
          placeholder={usual}
          maxLength={40}
          onInput={(event) => say(key, event.currentTarget.value)}
        />
      )}
    </div>
  );
}
