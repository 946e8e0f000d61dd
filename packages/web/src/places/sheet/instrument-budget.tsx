import { type Body, budgetOf, chestWords, type WorkedBudget } from '@fettle/book';
import { book } from '../../state/job.ts';

/** What a declared U was built from. */
export function DeclaredBudget({ body }: { readonly body: Body<'instrument-declared'> }) {
  const worked = budgetOf(body);
  const { common_share: common, coverage, expanded } = body.uncertainty;
  if (!worked)
    return (
      <p>
        ±{expanded} was stated as a whole, at k = {coverage}; {Math.round(100 * common)} % of its variance is
        common to all its readings and cancels in a difference. No budget stands behind it. Declare it anew
        under another name to build one.
      </p>
    );
  return (
    <>
      <BudgetBars worked={worked} />
      <p>{chestWords.budgetSum(body, worked)}</p>
    </>
  );
}

/** Each cause with a bar for its share of the variance: filled where all readings share it, hollow where each has its own. */
export function BudgetBars({ worked }: { readonly worked: WorkedBudget }) {
  return (
    <ul class="budget">
      {chestWords
        .budgetRows(book.value, worked)
        .map(({ what, amount, how, u, share, common, whose, source }) => (
          <li key={what}>
            <span class="cause">{what}</span>
            <svg
              class={common ? 'common' : 'own'}
              viewBox="0 0 100 8"
              preserveAspectRatio="none"
              aria-hidden="true"
            >
              <rect x="0.3" y="0.5" width={Math.max(0.5, 99.4 * share)} height="7" />
            </svg>
            <span class="share">{Math.round(100 * share)} %</span>
            <small>
              {amount}, {how}: u = {u}; {whose}. {source}.
            </small>
          </li>
        ))}
    </ul>
  );
}
