import { leavesWords, limitsOf, type Status } from '@fettle/book';
import { feelerVerdict } from '@fettle/core';
import { useMemo, useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { Lazy } from '../../parts/lazy.tsx';
import { bracketTried, leafAdvised, rungsOf, stackAdvised } from '../../parts/leaves.ts';
import {
  canEnter,
  draft,
  issues,
  leafTapped,
  leavesAt,
  leavesLaid,
  measurandOf,
} from '../../state/measuring.ts';
import { judgementAt, type Step } from '../../state/steps.ts';
import { STATUS_WORDS } from '../../words/judgement.ts';
import { entered } from './entered.ts';

const ladder = () => import('../../parts/ladder.tsx').then(({ LeafLadder }) => LeafLadder);

/** What the leaves tried say already, or which to try. */
function afterLeaves(
  advised: string | undefined,
  verdict: Status | undefined,
  stack: string | undefined,
): string {
  if (stack !== undefined) return `No single leaf would decide: lay ${stack} together and try that.`;
  if (advised !== undefined) return `Try ${advised} next.`;
  if (verdict === 'in' || verdict === 'out')
    return `That decides it: ${STATUS_WORDS[verdict].toLowerCase()}. Enter it.`;
  return 'No other leaf would tell more. Enter it.';
}

/** Saying it by leaves: each rung goes, does not, or drags, and leaves laid together are a rung of their own. */
export function ByLeaves({ step: { characteristic, place } }: { readonly step: Step }) {
  const judgement = judgementAt(characteristic, place);
  const leaves = leavesAt(characteristic);
  const { leaves: tried = {}, stacks = [] } = draft.value ?? {};
  const owned = useMemo(() => rungsOf(leaves, stacks), [characteristic, leaves.length, stacks]);
  const [laying, setLaying] = useState<readonly string[]>();
  // In another measurand the limits are not this leaf's limits, so the bracket is only halved.
  const direct = (measurandOf(characteristic) ?? characteristic.measurand) === characteristic.measurand;
  const limits =
    (direct && judgement?.governing && limitsOf(characteristic, judgement.governing, undefined)) || {};
  const advised = leafAdvised(owned, tried, limits);
  const bracket = bracketTried(owned, tried);
  const stack = stackAdvised(leaves, owned, tried, limits);
  const lay = (texts: readonly string[]): void => {
    setLaying(undefined);
    void leavesLaid(texts);
  };
  const tap = (leaf: string): void => {
    if (!laying) void leafTapped(leaf);
    else if (stacks.includes(leaf)) return;
    else setLaying(laying.includes(leaf) ? laying.filter((one) => one !== leaf) : [...laying, leaf]);
  };
  const goes = owned.filter(({ text }) => tried[text] === 'goes' || tried[text] === 'drags').at(-1)?.text;
  const stops = owned.find(({ text }) => tried[text] === 'stops')?.text;
  // While leaves are chosen the ladder shows them all, and what is made of them must not lie below it.
  const together = <Laying laying={laying} set={setLaying} stack={stack} lay={lay} />;
  return (
    <div class="by-leaves">
      <p class="leaf-words" role="status">
        {!bracket.ok
          ? 'These answers contradict each other.'
          : goes || stops
            ? `${goes ? `${goes} ${tried[goes]}` : 'none goes yet'}, ${stops ? `${stops} does not` : 'none stops yet'}. `
            : 'Tap a leaf: it goes. Again: it does not. Once more: it drags. '}
        {bracket.ok ? afterLeaves(stack ?? advised?.text, feelerVerdict(bracket.value, limits), stack) : ''}
      </p>
      {laying ? together : null}
      <Lazy load={ladder} given={{ owned, tried, advised: stack ? undefined : advised, laying, tap }} />
      {laying ? null : together}
      <IssueLines issues={issues.value} />
      <button type="button" class={canEnter.value ? 'main-move' : 'enter'} onClick={() => void entered()}>
        Enter
      </button>
    </div>
  );
}

/** Most leaves laid together here: each further one brings its own error. */
const MOST_LAID = 3;

/** Two rungs put together become one: chosen on the ladder, or those advised by a single tap. */
function Laying({
  laying,
  set,
  stack,
  lay,
}: {
  readonly laying: readonly string[] | undefined;
  readonly set: (laying: readonly string[] | undefined) => void;
  readonly stack: string | undefined;
  readonly lay: (texts: readonly string[]) => void;
}) {
  if (!laying)
    return (
      <div class="row">
        {stack === undefined ? null : (
          <button type="button" onClick={() => lay([stack])}>
            Lay {stack} together
          </button>
        )}
        <button type="button" class="quiet" onClick={() => set([])}>
          Lay leaves together
        </button>
      </div>
    );
  const laid = laying.length > 0 ? leavesWords.stackWords(laying) : '';
  return (
    <>
      <p role="status">
        {laid === '' ? 'Tap the leaves to lay together.' : `${laid}.`} {leavesWords.STACK_DOUBT}
      </p>
      <div class="row">
        {laying.length >= 2 && laying.length <= MOST_LAID ? (
          <button type="button" class="main-move" onClick={() => lay(laying)}>
            Together: {laid}
          </button>
        ) : null}
        <button type="button" onClick={() => set(undefined)}>
          Each by itself
        </button>
      </div>
    </>
  );
}
