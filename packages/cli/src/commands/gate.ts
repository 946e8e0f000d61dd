import { asFittedNow, assessment, type Book, type Gate, gateAsSeen, type Reason } from '@fettle/book';
import { CATALOGUE, failed, type Issue, type Outcome, ok } from '@fettle/core';
import type { Draft } from '@fettle/store';
import type { Bench } from '../bench.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { wrapped } from '../words/table.ts';
import { gateJson } from './check.ts';

interface Said {
  readonly close?: boolean;
  readonly open?: boolean;
  readonly pass?: boolean;
  readonly why?: string;
}

export const registerGate: Register = (program, run) => {
  program
    .command('gate <job> [cover]')
    .description('what holds a cover; with --close, --open or --pass, log that it was done')
    .option('--close', 'the cover goes on')
    .option('--open', 'the cover comes off again')
    .option('--pass', 'go past a hold all the same; the book says who and why')
    .option('--why <text>', 'needed with --open and --pass')
    .addHelpText(
      'after',
      `
Examples:
  fettle gate linnet                 every cover
  fettle gate linnet pan             what holds the pan
  fettle gate linnet pan --close
  fettle gate linnet pan --pass --why "trial assembly, comes off again"`,
    )
    .action((job: string, cover: string | undefined, said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? asked(bench.value, cover, said, context.io.now()) : bench;
      }),
    );
};

const gates = (book: Book, now: number): readonly Gate[] =>
  assessment(book, asFittedNow(book), CATALOGUE, now).gates;

const issue = (code: string, got: string, wanted: string, message: string): Issue => ({
  code,
  at: 'gate',
  got,
  wanted,
  message,
});

async function asked(
  bench: Bench,
  cover: string | undefined,
  said: Said,
  now: number,
): Promise<Outcome<Reply>> {
  const all = gates(bench.book(), now);
  const moves = [said.close, said.open, said.pass].filter(Boolean).length;
  if (cover === undefined) {
    if (moves > 0)
      return failed(
        issue('command/bad-use', 'no cover', 'a cover', 'Name the cover that is closed, opened or passed.'),
      );
    return ok(shown(all));
  }
  const gate = all.find((one) => one.cover.id === cover || one.cover.name === cover);
  if (!gate) {
    const known = all.map((one) => one.cover.id).join(', ') || 'none on the sheet';
    return failed(
      issue('cover/unknown', cover, known, `The spec sheet has no cover "${cover}". It has ${known}.`),
    );
  }
  if (moves === 0) return ok(shown([gate]));
  if (moves > 1)
    return failed(
      issue(
        'command/bad-use',
        'several of --close, --open, --pass',
        'one of them',
        'Say one of --close, --open, --pass.',
      ),
    );
  return moved(bench, gate, said);
}

async function moved(bench: Bench, gate: Gate, said: Said): Promise<Outcome<Reply>> {
  const { id, name } = gate.cover;
  if ((said.open || said.pass) && !said.why)
    return failed(
      issue(
        'gate/why-missing',
        'no reason',
        '--why',
        `Say why with --why: the book is believed for its reasons.`,
      ),
    );
  if (said.close && gate.state === 'held' && !gate.passed)
    return failed(
      issue(
        'gate/held',
        `${gate.reasons.length} reasons`,
        'an open gate, or a hold passed with who and why',
        `${name} is held: ${gate.reasons
          .slice(0, 3)
          .map(({ message }) => message)
          .join(
            '; ',
          )}${gate.reasons.length > 3 ? ` and ${gate.reasons.length - 3} more` : ''}. Settle them, or go past the hold with --pass --why.`,
      ),
    );
  if (said.pass && gate.state === 'open')
    return failed(
      issue(
        'gate/not-held',
        'an open gate',
        'a held one',
        `${name} is not held: nothing has to be passed. Close it with --close.`,
      ),
    );
  const seen = gateAsSeen(gate);
  const draft: Draft = said.close
    ? {
        kind: 'cover-closed',
        body: { cover: id, gate: seen, ...(said.why !== undefined && { why: said.why }) },
      }
    : said.open
      ? { kind: 'cover-opened', body: { cover: id, why: said.why! } }
      : { kind: 'hold-passed', body: { cover: id, why: said.why!, gate: seen } };
  const written = await bench.write([draft]);
  if (!written.ok) return written;
  const text = said.close
    ? `${name} closed. It would take ${gate.cover.reopen_hours} h to reopen.`
    : said.open
      ? `${name} opened: ${said.why}.`
      : `Hold on ${name} passed by ${written.value[0]!.who}: ${said.why}. ${gate.reasons.length} reasons stay in the book.`;
  return ok({ json: written.value[0], text });
}

/** Reasons, those alike at several places together. */
function reasonLines(reasons: readonly Reason[]): string[] {
  const groups = new Map<string, { words: string; id: string; places: string[] }>();
  for (const { code, about, message } of reasons) {
    const [id, at] = about.split('@');
    const words = at === undefined ? message : message.replace(`, ${at}:`, ':');
    const group = groups.get(`${code} ${id} ${words}`) ?? { words, id: id!, places: [] };
    if (at !== undefined) group.places.push(at);
    groups.set(`${code} ${id} ${words}`, group);
  }
  return [...groups.values()].flatMap(({ words, id, places }) =>
    wrapped(`${words}${places.length > 0 ? `, at ${places.join(' ')}` : ''}  [${id}]`, 104, '    ').map(
      (line) => `    ${line}`,
    ),
  );
}

function shown(list: readonly Gate[]): Reply {
  const lines = list.flatMap((gate) => [
    `${gate.state === 'open' ? '○ may be closed' : '✖ HELD'}  ${gate.cover.name} [${gate.cover.id}]${gate.closed ? ', closed' : ''}, ${gate.cover.reopen_hours} h to reopen`,
    ...(gate.cover.caution === undefined ? [] : [`    caution: ${gate.cover.caution}`]),
    ...reasonLines(gate.reasons),
    ...(gate.passed
      ? [
          `    hold passed by ${gate.passed.entry.who} on ${gate.passed.entry.at.slice(0, 10)}: ${gate.passed.body.why}`,
        ]
      : []),
    ...(gate.sinceThen.length > 0
      ? [`    would not pass now: ${gate.sinceThen.map(({ message }) => message).join('; ')}`]
      : []),
  ]);
  return {
    json: list.map(gateJson),
    text: lines.length > 0 ? lines.join('\n') : 'The spec sheet names no covers.',
    status: list.every(({ state }) => state === 'open') ? 0 : 1,
  };
}
