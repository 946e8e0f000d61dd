/** How often the server is asked when it cannot call out. */
const POLL_MS = 20_000;

/**
 * Calls back whenever the server may have something new: its event stream where there is one, a slow poll besides,
 * and whenever the network or the person comes back.
 *
 * @returns stops listening
 */
export function newsOf(heard: () => void, path = '/api/events'): () => void {
  const stream = new EventSource(path);
  const called = (): void => heard();
  for (const name of ['message', 'entries', 'job', 'open']) stream.addEventListener(name, called);
  const timer = setInterval(called, POLL_MS);
  const woken = (): void => {
    if (document.visibilityState === 'visible') heard();
  };
  addEventListener('online', called);
  document.addEventListener('visibilitychange', woken);
  return () => {
    stream.close();
    clearInterval(timer);
    removeEventListener('online', called);
    document.removeEventListener('visibilitychange', woken);
  };
}
