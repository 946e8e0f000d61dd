import { writeFileSync } from 'node:fs';
import {
  asFittedNow,
  asFound,
  type BearingFilm,
  type Book,
  type FilledCircuit,
  type FilmField,
  filledCircuit,
  filledCrank,
  filmField,
  filmPictures,
  filmPrediction,
  Reckoning,
} from '@fettle/book';
import {
  CATALOGUE,
  failed,
  IDLING_LOAD,
  type Issue,
  issue,
  type Outcome,
  ok,
  parseQuantity,
} from '@fettle/core';
import { orbitSvg, unrolledFilmSvg } from '@fettle/draw';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { type FilmRow, type Films, filmJson, filmLines } from '../words/film-lines.ts';
import type { Condition } from '../words/oil-lines.ts';
import { conditionsOf } from './oil.ts';

interface Said {
  readonly speed?: string[];
  readonly temperature?: string[];
  readonly load?: string;
  readonly oil?: string;
  readonly asFound?: boolean;
  readonly bearing?: string;
  readonly picture?: string;
  readonly unrolled?: string;
}

export const registerFilm: Register = (program, run) => {
  program
    .command('film <job>')
    .description(
      'loads of big ends and main bearings, how warm their films run, and the least film over the cycle',
    )
    .option('--speed <speeds...>', 'crank speeds, such as 600rpm; the sheet’s when absent')
    .option('--temperature <temperatures...>', 'of the sump, such as 93degC; the sheet’s hot when absent')
    .option(
      '--load <share>',
      `pressure of the charge over the air outside, 0.1 to 1 (1: throttle open); when absent ${IDLING_LOAD} at the sheet’s idle speed and 1 at others`,
    )
    .option('--oil <grade>', 'another grade of the sheet')
    .option('--as-found', 'the engine as it came')
    .option('--picture <file>', 'draws the journal’s path and its load, as SVG')
    .option('--unrolled <file>', 'draws the pressure in one bearing’s film under its mean load, as SVG')
    .option(
      '--bearing <name>',
      'which bearing is drawn, such as rod-1; the one with the least film when absent',
    )
    .addHelpText(
      'after',
      `
Examples:
  fettle film linnet
  fettle film linnet --speed 3000rpm --load 1 --picture rod.svg --bearing rod-2`,
    )
    .action((job: string, said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? replied(bench.value.book(), said) : bench;
      }),
    );
};

/** @returns undefined where nothing was said */
function loadSaid(text: string | undefined): Outcome<number | undefined> {
  if (text === undefined) return ok(undefined);
  const read = parseQuantity(text, 'ratio');
  const share = read.ok ? read.value.value : Number(text);
  if (share >= 0.1 && share <= 1) return ok(share);
  return failed(
    issue(
      'number/out-of-range',
      '--load',
      text,
      'a share from 0.1 to 1',
      'Say the load as pressure of the charge over the air outside: 1 with the throttle open, about 0.35 idling.',
    ),
  );
}

function replied(book: Book, said: Said): Outcome<Reply> {
  const reckoning = new Reckoning(book, said.asFound ? asFound(book) : asFittedNow(book), CATALOGUE);
  const circuit = filledCircuit(book, reckoning, said.oil);
  if (!circuit.ok) return circuit;
  const hot = book.sheet?.oil?.hot;
  const conditions = conditionsOf(book, {
    ...(said.speed && { speed: said.speed }),
    ...(said.temperature
      ? { temperature: said.temperature }
      : hot === undefined
        ? {}
        : { temperature: [hot] }),
  });
  if (!conditions.ok) return conditions;
  const load = loadSaid(said.load);
  if (!load.ok) return load;
  const crank = filledCrank(book, reckoning);
  // Without a crank on the sheet there are still film temperatures; figures that cannot be are an error.
  if (!crank.ok && crank.issues[0]!.code !== 'film/no-crank') return crank;
  const rows: FilmRow[] = [];
  for (const condition of conditions.value) {
    const share = load.value ?? (isIdle(book, condition) ? IDLING_LOAD : 1);
    const prediction = filmPrediction(
      circuit.value,
      crank.ok ? crank.value : undefined,
      { speed: condition.speed, temperature: condition.temperature },
      share,
    );
    if (!prediction.ok) return noBalance(prediction.issues[0]!, condition);
    rows.push({ condition, load: share, prediction: prediction.value });
  }
  const films: Films = {
    book,
    crank: crank.ok ? crank.value : crank.issues[0]!,
    rows,
    asFound: said.asFound === true,
    grade: said.oil,
  };
  const drawn = said.picture === undefined ? ok(undefined) : pictured(rows, said.picture, said.bearing);
  if (!drawn.ok) return drawn;
  const unrolled =
    said.unrolled === undefined
      ? ok(undefined)
      : unrolledFilm(circuit.value, rows.at(-1)!, said.unrolled, said.bearing);
  if (!unrolled.ok) return unrolled;
  return ok({
    json: {
      ...filmJson(films),
      ...(drawn.value && { picture: drawn.value }),
      ...(unrolled.value && { unrolled: unrolled.value }),
    },
    text: [
      ...filmLines(films),
      ...(drawn.value ? ['', `The path in ${drawn.value.bearing} is drawn in ${drawn.value.file}.`] : []),
      ...(unrolled.value
        ? [
            '',
            `The film of ${unrolled.value.bearing} is drawn in ${unrolled.value.file}: its mean load as if it stood still.`,
          ]
        : []),
    ].join('\n'),
  });
}

/** The first speed of the sheet is idle. */
function isIdle(book: Book, condition: Condition): boolean {
  const idle = book.sheet?.oil?.speeds[0];
  const read = idle === undefined ? undefined : parseQuantity(idle, 'speed');
  return read?.ok === true && condition.speed <= read.value.value * 1.001;
}

const noBalance = (cause: Issue, condition: Condition): Outcome<never> =>
  failed(
    issue(
      'oil/no-balance',
      'conditions',
      `${condition.speedWords}, ${condition.words}`,
      'conditions an engine runs at',
      `The circuit cannot be solved there: ${cause.message} Give speeds and temperatures an engine runs at.`,
    ),
  );

/** Draws one bearing at the last condition into a file. */
function pictured(
  rows: readonly FilmRow[],
  file: string,
  wanted: string | undefined,
): Outcome<{ file: string; bearing: string }> {
  const { condition, prediction } = rows.at(-1)!;
  const drawable = prediction.films.filter(({ orbit }) => orbit);
  const film =
    wanted === undefined
      ? drawable.toSorted((a, b) => a.orbit!.leastFilm - b.orbit!.leastFilm)[0]
      : drawable.find(({ element }) => element === wanted);
  if (!film)
    return failed(
      issue(
        'film/nothing-to-draw',
        '--bearing',
        wanted ?? 'a sheet that does not describe the crank',
        drawable.map(({ element }) => element).join(', ') || 'a bearing whose load is known',
        'There is no such bearing with a path to draw. Name one of those listed, or describe the crank on the sheet.',
      ),
    );
  return written(file, film.element, orbitPicture(film, condition));
}

/** Draws the film of one bearing at the last condition into a file. */
function unrolledFilm(
  circuit: FilledCircuit,
  { condition, prediction }: FilmRow,
  file: string,
  wanted: string | undefined,
): Outcome<{ file: string; bearing: string }> {
  const film = prediction.films.find(({ element, load }) => load && (wanted ?? element) === element);
  const field = film && filmField(circuit, film, prediction.running);
  if (!field)
    return failed(
      issue(
        'film/nothing-to-draw',
        '--bearing',
        wanted ?? 'a sheet that does not describe the crank',
        prediction.films.flatMap(({ element, load }) => (load ? [element] : [])).join(', ') ||
          'a bearing whose load is known',
        'There is no such film to draw. Name a bearing fed by groove or hole whose load is known, or describe the crank on the sheet.',
      ),
    );
  return written(file, field.element, filmPicture(field, condition));
}

function written(file: string, bearing: string, text: string): Outcome<{ file: string; bearing: string }> {
  try {
    writeFileSync(file, text);
  } catch (error) {
    const why = (error as NodeJS.ErrnoException).code ?? String(error);
    return failed(
      issue(
        'file/cannot-write',
        file,
        why,
        'a file that can be written',
        `${file} cannot be written (${why}). Check the folder and its rights.`,
      ),
    );
  }
  return ok({ file, bearing });
}

function filmPicture(field: FilmField, condition: Condition): string {
  const { chart, desc } = filmPictures.fieldWords(field);
  return unrolledFilmSvg(chart, {
    title: `Film of ${field.element} at ${condition.speedWords}, sump ${condition.words}`,
    desc,
    width: 900,
    profile: 'desk',
    paper: true,
  });
}

function orbitPicture(film: BearingFilm, condition: Condition): string {
  const { chart, desc } = filmPictures.orbitWords(film)!;
  return orbitSvg(chart, {
    title: `${film.element} at ${condition.speedWords}, sump ${condition.words}`,
    desc,
    width: 900,
    profile: 'desk',
    paper: true,
    font: 'sans-serif',
  });
}
