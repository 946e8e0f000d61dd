import {
  admittedAmendment,
  amendedLimits,
  type Body,
  type Characteristic,
  type LimitSet,
  type Trust,
} from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { FoldOut } from '../../parts/fold-out.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { book, write } from '../../state/job.ts';
import { isRead, steps } from '../../state/steps.ts';
import { unitOf } from '../../state/units.ts';
import { hashAt } from '../measurement/going.ts';

const TRUST_WORDS: Readonly<Record<Trust, string>> = {
  printed: 'printed, I have it before me',
  remembered: 'remembered',
  calculated: 'calculated',
  assumed: 'assumed',
};

const setWords = (set: LimitSet | undefined): string => {
  if (!set) return '';
  if (set.lower && set.upper) return `${set.lower} to ${set.upper}`;
  return set.lower ? `at least ${set.lower}` : set.upper ? `at most ${set.upper}` : '';
};

function limitLine({ limits, no_limits, wanted, kind }: Characteristic): string {
  if (kind === 'seen') return wanted ? `wanted: ${wanted}` : 'looked at';
  const words = [
    limits?.new && `new ${setWords(limits.new)}`,
    limits?.wear && `wear ${setWords(limits.wear)}`,
  ].filter((part) => part);
  return words.length > 0 ? words.join('; ') : (no_limits ?? 'no limits');
}

/** Every characteristic by its group; one at a time is opened to type its limits in. */
export function Limits() {
  const groups = new Map<string, Characteristic[]>();
  for (const characteristic of book.value.characteristics.values()) {
    const group = characteristic.group ?? 'Other';
    groups.set(group, [...(groups.get(group) ?? []), characteristic]);
  }
  return (
    <section>
      <h2>Limits, with their page and trust</h2>
      {[...groups].map(([group, list]) => (
        <FoldOut
          key={group}
          summary={
            <>
              {group}{' '}
              <span class="soft">
                {list.length}, {list.filter(({ limits, kind }) => !limits && kind !== 'seen').length} without
                limits
              </span>
            </>
          }
        >
          {() => (
            <ul class="lines folded">
              {list.map((characteristic) => (
                <li key={characteristic.id}>
                  <One characteristic={characteristic} />
                </li>
              ))}
            </ul>
          )}
        </FoldOut>
      ))}
    </section>
  );
}

function One({ characteristic }: { readonly characteristic: Characteristic }) {
  return (
    <FoldOut
      summary={
        <>
          {characteristic.name} <span class="soft">{limitLine(characteristic)}</span>
        </>
      }
    >
      {() =>
        characteristic.kind === 'seen' ? (
          <p>It is looked at, not measured.</p>
        ) : (
          <LimitForm characteristic={characteristic} />
        )
      }
    </FoldOut>
  );
}

const FIELDS = [
  { set: 'new', edge: 'lower', word: 'New, at least' },
  { set: 'new', edge: 'upper', word: 'New, at most' },
  { set: 'wear', edge: 'lower', word: 'Worn, at least' },
  { set: 'wear', edge: 'upper', word: 'Worn, at most' },
] as const;

type Field = `${'new' | 'wear'} ${'lower' | 'upper'}`;

/** The document last named is the one most likely meant again. */
let lastDocument = '';

function LimitForm({ characteristic }: { readonly characteristic: Characteristic }) {
  const unit = unitOf(characteristic) ?? '';
  const before = (set: 'new' | 'wear', edge: 'lower' | 'upper'): string =>
    characteristic.limits?.[set]?.[edge] ?? '';
  const [fields, setFields] = useState<Record<string, string>>(() =>
    Object.fromEntries(FIELDS.map(({ set, edge }) => [`${set} ${edge}`, before(set, edge)])),
  );
  const [document, setDocument] = useState(characteristic.source?.document ?? lastDocument);
  const [page, setPage] = useState(characteristic.source?.page ?? '');
  const [trust, setTrust] = useState<Trust>('printed');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [done, setDone] = useState(false);
  const first = steps.value.find((step) => step.characteristic.id === characteristic.id);
  const at = (set: 'new' | 'wear', edge: 'lower' | 'upper'): string | undefined => {
    const text = fields[`${set} ${edge}` satisfies Field]?.trim() ?? '';
    if (text === '') return undefined;
    return /[a-z"%°]/i.test(text) || unit === '' ? text : `${text} ${unit}`;
  };
  const amend = async (change: Body<'characteristic-amended'>['change'], why: string): Promise<void> => {
    const admitted = admittedAmendment(book.value, { characteristic: characteristic.id, change, why });
    if (!admitted.ok) return setIssues(admitted.issues);
    const entries = await write([{ kind: 'characteristic-amended', body: admitted.value }]);
    setIssues(entries.ok ? [] : entries.issues);
    setDone(entries.ok);
  };
  const given = async (event: Event): Promise<void> => {
    event.preventDefault();
    const name = document.trim() === '' ? 'own note' : document.trim();
    lastDocument = document.trim();
    const source = { document: name, trust, ...(page.trim() !== '' && { page: page.trim() }) };
    const limits: Record<string, LimitSet> = {};
    for (const set of ['new', 'wear'] as const) {
      const [lower, upper] = [at(set, 'lower'), at(set, 'upper')];
      if (lower === undefined && upper === undefined) continue;
      const was = characteristic.limits?.[set];
      const touched = {
        ...(lower !== was?.lower && { lower: lower ?? null }),
        ...(upper !== was?.upper && { upper: upper ?? null }),
      };
      // With no number changed it is the source that is given anew, for all of them.
      const all = {
        ...(lower && { lower }),
        ...(upper && { upper }),
        ...(was?.target && { target: was.target }),
      };
      limits[set] = amendedLimits(
        characteristic,
        set,
        Object.keys(touched).length > 0 ? touched : all,
        source,
      );
    }
    if (Object.keys(limits).length === 0)
      return setIssues([
        {
          code: 'limits/none',
          at: 'limits',
          got: 'no number',
          wanted: 'a limit',
          message: 'Type at least one limit, or say below that the manual gives none.',
        },
      ]);
    await amend({ limits }, `limits from ${name}${page.trim() === '' ? '' : `, page ${page.trim()}`}`);
  };
  const id = characteristic.id;
  return (
    <form class="form two" onSubmit={(event) => void given(event)}>
      {FIELDS.map(({ set, edge, word }) => (
        <label key={word}>
          {word}
          {unit === '' ? '' : `, ${unit}`}
          <input
            inputMode="decimal"
            value={fields[`${set} ${edge}`] ?? ''}
            onInput={(event) => setFields({ ...fields, [`${set} ${edge}`]: event.currentTarget.value })}
          />
        </label>
      ))}
      <label>
        Document
        <input
          list={`documents-${id}`}
          value={document}
          placeholder="shop manual"
          onInput={(event) => setDocument(event.currentTarget.value)}
        />
        <datalist id={`documents-${id}`}>
          {Object.keys(book.value.sheet?.documents ?? {}).map((name) => (
            <option key={name} value={name} />
          ))}
        </datalist>
      </label>
      <label>
        Page
        <input value={page} onInput={(event) => setPage(event.currentTarget.value)} />
      </label>
      <label class="wide">
        How far it is trusted
        <select value={trust} onChange={(event) => setTrust(event.currentTarget.value as Trust)}>
          {Object.entries(TRUST_WORDS).map(([name, words]) => (
            <option key={name} value={name}>
              {words}
            </option>
          ))}
        </select>
      </label>
      <div class="wide">
        <IssueLines issues={issues} />
        <p role="status">{done ? 'Kept, with its source.' : ''}</p>
        <div class="row">
          <button type="submit">Keep these limits</button>
          <button
            type="button"
            onClick={() => void amend({ no_limits: 'the manual gives none' }, 'the manual gives none')}
          >
            The manual gives none
          </button>
          {first && isRead(characteristic) ? (
            <a class="button" href={hashAt(first)}>
              Read it
            </a>
          ) : null}
        </div>
      </div>
    </form>
  );
}
