import {
  type Assessed,
  type Gate,
  gateAsSeen,
  keepingWords,
  openJoints,
  placeText,
  type Reason,
} from '@fettle/book';
import type { Issue } from '@fettle/core';
import { type ClosingCover, type ClosingLine, closingLineSvg, type Picture } from '@fettle/draw';
import { useCallback, useEffect, useState } from 'preact/hooks';
import type { Draft } from '../../ledger/writing.ts';
import { Drawing } from '../../parts/drawing.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { WhoLine } from '../../parts/who-line.tsx';
import { hashOf, route } from '../../route.ts';
import { clock, deviceZone } from '../../state/clock.ts';
import { assessed, book, job, write } from '../../state/job.ts';
import { whenWords } from '../../words/entry.ts';
import { hashAt } from '../measurement/going.ts';
import { TorqueForm } from './torque-form.tsx';

const STATE_WORDS = { open: 'may be closed', held: 'held', closed: 'closed', passed: 'hold passed' } as const;

const stateOf = (gate: Gate): ClosingCover['state'] =>
  gate.closed ? 'closed' : gate.passed ? 'passed' : gate.state;

const matches = (pattern: string, id: string): boolean =>
  pattern.endsWith('*') ? id.startsWith(pattern.slice(0, -1)) : id === pattern;

function hiddenBy({ cover }: Gate, judgements: readonly Assessed[]): Assessed[] {
  return judgements.filter(({ characteristic }) =>
    cover.hides.characteristics.some((pattern) => matches(pattern, characteristic.id)),
  );
}

function coverOf(gate: Gate, judgements: readonly Assessed[]): ClosingCover {
  const hidden = hiddenBy(gate, judgements);
  const count = (...states: readonly Assessed['status'][]): number =>
    hidden.filter(
      ({ status, characteristic }) =>
        states.includes(status) && !(status === 'missing' && characteristic.optional),
    ).length;
  const state = stateOf(gate);
  return {
    id: gate.cover.id,
    name: gate.cover.name,
    hours: gate.cover.reopen_hours,
    hoursText: `${gate.cover.reopen_hours} h`,
    state,
    stateText: state === 'held' ? `held by ${gate.reasons.length}` : STATE_WORDS[state],
    proven: count('in'),
    open: count('missing', 'cannot-tell'),
    out: count('out'),
  };
}

/** The covers in the order they go on, and what each is about to hide. */
export function Covers() {
  const { gates, judgements } = assessed.value;
  const draw = useCallback(
    (picture: Picture): string => {
      const line: ClosingLine = {
        covers: gates.map((gate) => coverOf(gate, judgements)),
        words: { proven: 'proven', open: 'open', out: 'out' },
      };
      return closingLineSvg(line, picture);
    },
    [gates, judgements],
  );
  const at = route.value.rest[0];
  useEffect(() => {
    if (at !== undefined) document.getElementById(`cover-${at}`)?.scrollIntoView({ block: 'start' });
  }, [at]);
  return (
    <main class="covers">
      <h1>Covers, in the order they go on</h1>
      {gates.length === 0 ? <p>The spec sheet names no covers.</p> : null}
      {gates.length > 0 ? (
        <Drawing
          title="The closing line"
          desc={gates.map((gate) => `${gate.cover.name}: ${coverOf(gate, judgements).stateText}`).join('; ')}
          draw={draw}
          widest={1240}
        />
      ) : null}
      <WhoLine />
      {gates.map((gate) => (
        <Cover key={gate.cover.id} gate={gate} isNamed={at === gate.cover.id} />
      ))}
    </main>
  );
}

function Cover({ gate, isNamed }: { readonly gate: Gate; readonly isNamed: boolean }) {
  const { cover, reasons, passed, sinceThen } = gate;
  const [open, setOpen] = useState(isNamed);
  // Named by the address, it opens, though it stood here before.
  useEffect(() => {
    if (isNamed) setOpen(true);
  }, [isNamed]);
  return (
    <details
      class={isNamed ? 'cover at' : 'cover'}
      id={`cover-${cover.id}`}
      open={open}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        {cover.name}{' '}
        <span class="soft">
          {stateOf(gate) === 'held' ? `held by ${reasons.length}` : STATE_WORDS[stateOf(gate)]},{' '}
          {cover.reopen_hours} h to reopen
        </span>
      </summary>
      {open ? (
        <>
          {cover.caution ? <p class="caution">{cover.caution}</p> : null}
          {passed ? (
            <p>
              Hold passed by {passed.entry.who}, {whenWords(passed.entry.at)}: {passed.body.why}
            </p>
          ) : null}
          {sinceThen.length > 0 ? (
            <p class="issue">Would not pass now: {sinceThen.map(({ message }) => message).join('; ')}.</p>
          ) : null}
          <Reasons gate={gate} />
          <Moves gate={gate} />
        </>
      ) : null}
    </details>
  );
}

const SETTLED_AT: Readonly<Record<string, string>> = {
  'opening/count': 'openings',
  'joint/open': 'joints',
  'part/astray': 'marks',
  'cleaning/not-proven': 'cleaning',
};

/** Where a reason can be settled. */
function hrefOf({ code, about }: Reason): string | undefined {
  const form = SETTLED_AT[code];
  if (form !== undefined) return hashOf(job.value ?? '', 'loose', form, about);
  const judgement = assessed.value.judgements.find(({ characteristic, place }) => {
    const at = placeText(place);
    return about === (at === '' ? characteristic.id : `${characteristic.id}@${at}`);
  });
  if (!judgement) return undefined;
  const { characteristic } = judgement;
  const place = judgement.worstAt ?? judgement.members[0]?.place ?? judgement.place;
  return hashAt({ characteristic, place });
}

/** What cures is said by the device's clock, which runs on after the gate was judged. */
function nowWords({ code, about, message }: Reason): string {
  if (code !== 'joint/open') return message;
  const now = clock.value;
  const joints = openJoints(book.value, now).filter(({ joint }) => joint === about);
  const said = joints.map((joint) => keepingWords.jointWords(joint, { now, zone: deviceZone() }));
  // Of several places of one joint each has a reason of its own, in the same order.
  return said.find((one) => one.split(':')[0] === message.split(':')[0]) ?? message;
}

function Reasons({ gate }: { readonly gate: Gate }) {
  if (gate.reasons.length === 0) return <p>Everything it hides is proven.</p>;
  return (
    <ul class="lines">
      {gate.reasons.map((reason, i) => {
        const asksTorque = ({ code, about }: Gate['reasons'][number]): boolean =>
          code.startsWith('torque/') && code !== 'torque/refused' && about === reason.about;
        const fastener =
          gate.reasons.findIndex(asksTorque) === i
            ? book.value.sheet?.fasteners.find(({ id }) => id === reason.about)
            : undefined;
        const href = fastener ? undefined : hrefOf(reason);
        return (
          <li key={`${reason.code} ${reason.about} ${reason.message}`}>
            {href ? <a href={href}>{nowWords(reason)}</a> : nowWords(reason)}
            {fastener ? <TorqueForm fastener={fastener} /> : null}
          </li>
        );
      })}
    </ul>
  );
}

function Moves({ gate }: { readonly gate: Gate }) {
  const { cover } = gate;
  const [why, setWhy] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const held = gate.state === 'held' && !gate.passed;
  const move = async (draft: Draft, needsWhy: boolean): Promise<void> => {
    if (needsWhy && why.trim() === '') {
      setIssues([
        {
          code: 'gate/why-missing',
          at: 'why',
          got: 'no reason',
          wanted: 'why',
          message: 'Say why: the book is believed for its reasons.',
        },
      ]);
      return;
    }
    const entries = await write([draft]);
    setIssues(entries.ok ? [] : entries.issues);
    if (entries.ok) setWhy('');
  };
  const seen = gateAsSeen(gate);
  const reason = why.trim();
  return (
    <div class="form">
      {gate.closed || held ? (
        <label>
          {gate.closed ? 'Why is it opened?' : 'Why go past the hold? Your name and this stay in the book.'}
          <input value={why} onInput={(event) => setWhy(event.currentTarget.value)} />
        </label>
      ) : null}
      <IssueLines issues={issues} />
      <div class="row">
        {gate.closed ? (
          <button
            type="button"
            onClick={() => void move({ kind: 'cover-opened', body: { cover: cover.id, why: reason } }, true)}
          >
            It comes off again
          </button>
        ) : held ? (
          <button
            type="button"
            onClick={() =>
              void move({ kind: 'hold-passed', body: { cover: cover.id, why: reason, gate: seen } }, true)
            }
          >
            Go past the hold
          </button>
        ) : (
          <button
            type="button"
            class="main-move"
            onClick={() => void move({ kind: 'cover-closed', body: { cover: cover.id, gate: seen } }, false)}
          >
            It goes on
          </button>
        )}
        <a class="button" href={hashOf(job.value ?? '', 'bench')}>
          What is next
        </a>
      </div>
    </div>
  );
}
