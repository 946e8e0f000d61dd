import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { Lazy } from '../../parts/lazy.tsx';
import { hashOf } from '../../route.ts';
import { desk } from '../../state/desk.ts';

interface Offered {
  readonly job: string;
  readonly title: string;
}

const offered = signal<readonly Offered[] | undefined>(undefined);

/** Jobs of this browser and of the server together. */
export async function jobsKnown(): Promise<readonly Offered[]> {
  const { db, server } = desk();
  const here = (await db.getAll('jobs')).map(({ job, title }) => ({ job, title }));
  const there = await server.jobs();
  const listed = there.state === 'done' ? there.value.map(({ id, title }) => ({ job: id, title })) : [];
  return [...new Map([...listed, ...here].map((one) => [one.job, one])).values()];
}

const newEngine = () => import('../sheet/new-engine.tsx').then(({ NewEngine }) => NewEngine);

/** Which engine is on the bench; or a new one. */
export function Jobs() {
  useEffect(() => {
    void jobsKnown().then((jobs) => {
      offered.value = jobs;
    });
  }, []);
  return (
    <main class="jobs">
      <h1>Which engine?</h1>
      {offered.value === undefined ? <p>Looking …</p> : null}
      <ul class="places">
        {offered.value?.map(({ job, title }) => (
          <li key={job}>
            <a href={hashOf(job, 'bench')}>
              <strong>{title || job}</strong>
            </a>
          </li>
        ))}
      </ul>
      <Lazy load={newEngine} given={{}} />
    </main>
  );
}
