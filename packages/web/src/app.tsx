import { useEffect } from 'preact/hooks';
import { Lazy } from './parts/lazy.tsx';
import { TopBar } from './parts/top-bar.tsx';
import { Bench } from './places/bench/bench.tsx';
import { Jobs } from './places/jobs/jobs.tsx';
import { Measurement } from './places/measurement/measurement.tsx';
import { route } from './route.ts';
import { theme } from './state/desk.ts';
import { book, job, openJob, ready } from './state/job.ts';

const LAZY = {
  maps: () => import('./places/maps/maps.tsx').then(({ Maps }) => Maps),
  decide: () => import('./places/decide/decide.tsx').then(({ Decide }) => Decide),
  oil: () => import('./places/oil/oil.tsx').then(({ Oil }) => Oil),
  loose: () => import('./places/loose/loose.tsx').then(({ Loose }) => Loose),
  covers: () => import('./places/covers/covers.tsx').then(({ Covers }) => Covers),
  sheet: () => import('./places/sheet/sheet.tsx').then(({ Sheet }) => Sheet),
  part: () => import('./places/part/part.tsx').then(({ PartPlace }) => PartPlace),
  book: () => import('./places/book/entries.tsx').then(({ Entries }) => Entries),
} as const;

function Place() {
  const { job: wanted, place } = route.value;
  if (wanted === undefined) return <Jobs />;
  if (job.value !== wanted || !ready.value) return <main aria-busy="true" />;
  if (book.value.entries.length === 0)
    return (
      <main>
        <h1>Not here</h1>
        <p>
          This job is neither in this browser nor on the server. <a href="#/">Choose another</a>.
        </p>
      </main>
    );
  if (place === 'bench') return <Bench />;
  if (place === 'at') return <Measurement />;
  return <Lazy key={place} load={LAZY[place]} given={{}} />;
}

export function App() {
  const wanted = route.value.job;
  useEffect(() => {
    if (wanted !== undefined) void openJob(wanted);
  }, [wanted]);
  useEffect(() => {
    if (theme.value === '') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = theme.value;
  }, [theme.value]);
  return (
    <>
      <TopBar />
      <Place />
    </>
  );
}
