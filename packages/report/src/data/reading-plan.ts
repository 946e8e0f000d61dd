import { type Assessment, type Book, placeText, readingPlan, readingPlanWords as words } from '@fettle/book';

/** So many rows stand on one page; what comes after them is counted. */
const MOST_ROWS = 24;
/** More places than these are counted. */
const MOST_PLACES = 8;

/** What to read next, in the order that decides most soonest, on one page. */
export function readingPlanPage(book: Book, assessed: Assessment) {
  const plan = readingPlan(book, assessed);
  const runs = words.planRuns(plan, Number.POSITIVE_INFINITY, ({ places }, place) =>
    placeText(place, places),
  );
  return {
    said: words.planSum(plan),
    rows: runs.slice(0, MOST_ROWS).map((run) => ({
      until: words.minutesWords(run.at),
      what: run.what,
      where: run.where.length > MOST_PLACES ? `${run.where.length} places` : run.where.join(', '),
      with: run.with,
      decides: run.decides,
    })),
    more: Math.max(0, runs.length - MOST_ROWS),
    left: words.leftWords(plan.left),
    grounds: words.PLAN_GROUNDS,
  };
}
