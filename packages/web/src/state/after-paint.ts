/** Where a tab is hidden nothing is painted: it goes on all the same, after so long [ms]. */
const UNSEEN = 200;

/** Once what is drawn now is on the screen. */
export function afterPaint(run: () => void): void {
  let waits = true;
  const once = (): void => {
    if (!waits) return;
    waits = false;
    run();
  };
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, UNSEEN);
}
