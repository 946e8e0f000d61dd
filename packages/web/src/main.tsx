import { render } from 'preact';
import '@preact/signals';
import { effect } from '@preact/signals';
import { App } from './app.tsx';
import { jobsKnown } from './places/jobs/jobs.tsx';
import { followHash, go, hashOf, route } from './route.ts';
import { startClock } from './state/clock.ts';
import { openDesk, setSetting, settings } from './state/desk.ts';
import { loadHeavy } from './state/heavy.ts';
import { checkSheets, job, listen, ready, settled, titleTab } from './state/job.ts';
import { followProfile } from './state/profile.ts';

/** Where one goes who says nothing: to the job last on this bench, or to the only one there is. */
async function firstJob(): Promise<void> {
  if (route.value.job !== undefined) return;
  const last = settings.value['last job'];
  if (location.hash === '#/') return;
  if (typeof last === 'string') return go(hashOf(last, 'bench'), true);
  const jobs = await jobsKnown();
  if (jobs.length === 1) go(hashOf(jobs[0]!.job, 'bench'), true);
}

/** What is not needed to show the bench, once it is shown. */
async function afterwards(): Promise<void> {
  await loadHeavy();
  await checkSheets();
  (await import('./state/idle-pressure.ts')).followIdlePressure();
  listen();
  void settled();
  if (import.meta.env.PROD && 'serviceWorker' in navigator)
    await navigator.serviceWorker.register('./service-worker.js').catch(() => {
      // Over plain HTTP from another device there is none: a reload then needs the server.
    });
  await navigator.storage?.persist?.().catch(() => false);
}

async function start(): Promise<void> {
  followProfile();
  followHash();
  startClock();
  await openDesk();
  await firstJob();
  titleTab();
  effect(() => {
    const id = job.value;
    if (id !== undefined && settings.peek()['last job'] !== id) void setSetting('last job', id);
  });
  render(<App />, document.getElementById('page')!);
  await shown();
  const idle = globalThis.requestIdleCallback ?? ((done: () => void) => setTimeout(done, 100));
  idle(() => void afterwards());
}

/** Once the place the address names has what it shows: on a first visit that waits for the server's answer. */
const shown = (): Promise<void> =>
  new Promise((done) => {
    const stop = effect(() => {
      const wanted = route.value.job;
      if (wanted !== undefined && !(job.value === wanted && ready.value)) return;
      queueMicrotask(() => {
        stop();
        done();
      });
    });
  });

void start();
