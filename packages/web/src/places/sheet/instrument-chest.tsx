import { type Body, checkState, chestWords } from '@fettle/book';
import { FoldOut } from '../../parts/fold-out.tsx';
import { book } from '../../state/job.ts';
import { NewInstrument } from './instrument-add.tsx';
import { DeclaredBudget } from './instrument-budget.tsx';
import { InstrumentCheck } from './instrument-check.tsx';
import { InstrumentCorrection } from './instrument-correction.tsx';
import { InstrumentStudy } from './instrument-study.tsx';
import { LeafStacks } from './leaf-stacks.tsx';

type Instrument = Body<'instrument-declared'>;

/** Everything owned to measure with: how good, how checked, and how well its owner repeats with it. */
export function InstrumentChest() {
  const owned = [...book.value.instruments.values()];
  return (
    <section class="chest">
      <h2>Instruments owned</h2>
      {owned.length === 0 ? (
        <p>
          None declared yet. Nothing can be judged without one: a reading is worth what its instrument is.
        </p>
      ) : (
        <ul class="tools">
          {owned.map(({ body }) => (
            <Tool key={body.instrument} body={body} />
          ))}
        </ul>
      )}
      <NewInstrument />
    </section>
  );
}

function Tool({ body }: { readonly body: Instrument }) {
  const state = checkState(book.value, body.instrument);
  const setIn = body.set_in === undefined ? undefined : book.value.instruments.get(body.set_in)?.body.name;
  const failed = state.last?.body.good === false || state.again > 0;
  return (
    <li class={failed ? 'failed' : undefined}>
      <h3>
        {body.name} <span class="good-for">±{body.uncertainty.expanded}</span>
      </h3>
      <p class="soft">
        {[
          body.name.toLowerCase() === body.type ? '' : body.type,
          body.trust === 'stated' ? '' : chestWords.trustWords[body.trust],
          setIn === undefined ? '' : `set in ${setIn}, whose error cancels between the two`,
          body.leaves ? `${body.leaves.length} leaves, ${body.leaves[0]} to ${body.leaves.at(-1)}` : '',
        ]
          .filter((words) => words !== '')
          .join('; ')}
      </p>
      <p class={failed ? 'caution' : undefined}>{chestWords.checkStateWords(book.value, state)}</p>
      <div class="tool-folds">
        <FoldOut summary={<strong>Check it now</strong>}>
          {() => <InstrumentCheck body={body} state={state} />}
        </FoldOut>
        {state.again > 0 && state.last ? (
          <FoldOut summary="All off by just that? Correct them">
            {() => <InstrumentCorrection instrument={body.instrument} />}
          </FoldOut>
        ) : null}
        {body.leaves ? (
          <FoldOut summary="Which leaves make a gap">{() => <LeafStacks body={body} />}</FoldOut>
        ) : null}
        <FoldOut summary="What its ± is built from">{() => <DeclaredBudget body={body} />}</FoldOut>
        <FoldOut summary="Your own repeatability with it">{() => <InstrumentStudy body={body} />}</FoldOut>
      </div>
    </li>
  );
}
