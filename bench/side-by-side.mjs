// Times of several ways to do one thing, taken in turns so that a busy moment meets all of them alike.

const now = () => performance.now();
const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];

/**
 * Median time of one call of each way [ms]. Every round runs each way once, for as many calls as fill `least`,
 * beginning with another way each time.
 *
 * @param ways  name → a function, or `{ run, calls }` where `run` itself does `calls` of what is compared, or `{ timed }`
 *              which does it so many times and says how long that took [ms]
 */
export async function mediansOf(ways, { rounds = 15, least = 20 } = {}) {
  const timed = [];
  for (const [name, way] of Object.entries(ways)) {
    const { run, calls = 1, timed: byItself } = typeof way === 'function' ? { run: way } : way;
    const timeOf =
      byItself ??
      (async (repeat) => {
        const start = now();
        for (let i = 0; i < repeat; i++) await run();
        return now() - start;
      });
    let repeat = 1;
    // The first calls also warm the compiler up.
    for (;;) {
      if ((await timeOf(repeat)) >= least) break;
      repeat *= 2;
    }
    timed.push({ name, timeOf, calls, repeat, times: [] });
  }
  for (let round = 0; round < rounds; round++)
    for (let turn = 0; turn < timed.length; turn++) {
      const way = timed[(turn + round) % timed.length];
      way.times.push((await way.timeOf(way.repeat)) / way.repeat / way.calls);
    }
  return timed.map(({ name, times }) => ({ name, time: median(times) }));
}

function timeText(ms) {
  if (ms < 1e-3) return `${(ms * 1e6).toPrecision(3)} ns`;
  return ms < 1 ? `${(ms * 1e3).toPrecision(3)} µs` : `${ms.toPrecision(3)} ms`;
}

/** Prints the ways below each other, each as a ratio to the first, which is the plain one. */
export async function compared(title, ways, options) {
  console.log(`\n${title}`);
  const medians = await mediansOf(ways, options);
  const plain = medians[0].time;
  for (const { name, time } of medians)
    console.log(`  ${(time / plain).toPrecision(3).padStart(9)} ×  ${timeText(time).padStart(9)}  ${name}`);
}
