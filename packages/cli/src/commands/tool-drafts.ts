import {
  admittedCheck,
  admittedCorrection,
  admittedStudy,
  adoptedStudy,
  type Book,
  type Built,
  builtInstrument,
  readsAsUncertainty,
} from '@fettle/book';
import { failed, type Issue, issue, type Outcome, ok, parseQuantity } from '@fettle/core';
import type { Draft } from '@fettle/store';

/** Everything that may be said with `tools`. */
export interface ToolSaid {
  readonly type?: string;
  readonly u?: string;
  readonly coverage?: string;
  readonly common?: string;
  readonly has?: readonly string[];
  readonly metric?: boolean;
  readonly setIn?: string;
  readonly leaves?: string;
  readonly against?: string;
  readonly read?: string;
  readonly limit?: string;
  readonly when?: string;
  readonly good?: boolean;
  readonly add?: string;
  readonly doubt?: string;
  readonly why?: string;
  readonly what?: string;
  readonly note?: string;
}

export const wrongUse = (at: string, got: string, wanted: string, message: string): Issue =>
  issue('command/bad-use', at, got, wanted, message);

/** The id of a declared instrument. */
export function toolNamed(book: Book, id: string | undefined): Outcome<string> {
  if (id !== undefined && book.instruments.has(id)) return ok(id);
  const declared = [...book.instruments.keys()].join(', ') || 'none yet';
  return failed(wrongUse('id', id ?? 'no instrument', declared, `Name a declared instrument: ${declared}.`));
}

export function declaration(
  book: Book,
  id: string | undefined,
  rest: readonly string[],
  said: ToolSaid,
): Outcome<Draft> {
  const [name, ...more] = rest;
  if (id === undefined || name === undefined || said.type === undefined || more.length > 0)
    return failed(
      wrongUse(
        'tools add',
        `id ${id ?? 'missing'}, name ${name === undefined ? 'missing' : rest.join(' ')}, type ${said.type ?? 'missing'}`,
        'an id, a name in quotes and --type',
        'An instrument needs an id, a name and a type: fettle tools JOB add mic "Micrometer 2-3 in" --type micrometer',
      ),
    );
  const uncertainty = said.u === undefined ? built(book, said.type, said) : stated(book, said.u, said);
  const leaves = said.leaves?.split(/\s+/).filter((leaf) => leaf !== '');
  const issues = (leaves ?? []).flatMap((leaf) => {
    const read = parseQuantity(leaf, 'length');
    return read.ok ? [] : read.issues.map((one) => ({ ...one, at: '--leaves' }));
  });
  if (!uncertainty.ok) return failed(...uncertainty.issues, ...issues);
  if (issues.length > 0) return failed(...issues);
  return ok({
    kind: 'instrument-declared',
    body: {
      instrument: id,
      name,
      type: said.type,
      ...uncertainty.value,
      ...(leaves && { leaves }),
      ...(said.note !== undefined && { note: said.note }),
    },
  });
}

function built(book: Book, type: string, said: ToolSaid): Outcome<Built> {
  const pairs = (said.has ?? []).map((pair) => /^([a-z]+)=(.*)$/s.exec(pair) ?? [pair]);
  const odd = pairs.find(([, key]) => key === undefined);
  if (odd)
    return failed(
      wrongUse(
        '--has',
        odd[0] ?? '',
        'key=value',
        `"${odd[0]}" is not of the form key=value, such as range="4 in".`,
      ),
    );
  return builtInstrument(book.instruments, {
    type,
    settings: Object.fromEntries(pairs.map(([, key = '', value = '']) => [key, value])),
    system: said.metric ? 'metric' : 'inch',
    ...(said.setIn !== undefined && { setIn: said.setIn }),
  });
}

function stated(book: Book, expanded: string, said: ToolSaid): Outcome<Built> {
  const issues: Issue[] = [];
  if (!readsAsUncertainty(expanded))
    issues.push(
      issue(
        'instrument/unreadable-uncertainty',
        '--u',
        expanded,
        'a quantity over 0 with its unit, or a share such as "3 %"',
        `"${expanded}" is no uncertainty. Say one over 0 with its unit, such as "0.0005 in", or as "3 %".`,
      ),
    );
  const share = Number(said.common);
  if (!(share >= 0 && share <= 1))
    issues.push(
      issue(
        'number/out-of-range',
        '--common',
        String(said.common),
        '0 to 1',
        'The common share is a number from 0 to 1.',
      ),
    );
  const coverage = Number(said.coverage);
  if (!(coverage > 0 && coverage < 10))
    issues.push(
      issue(
        'number/out-of-range',
        '--coverage',
        String(said.coverage),
        'a number over 0, usually 2',
        'The coverage factor is a number over 0, usually 2.',
      ),
    );
  if ((said.has ?? []).length > 0)
    issues.push(
      wrongUse(
        '--has',
        said.has!.join(' '),
        '--u or --has',
        'U is either stated with --u or built from --has, not both.',
      ),
    );
  if (said.setIn !== undefined && !book.instruments.has(said.setIn))
    issues.push(
      wrongUse(
        '--set-in',
        said.setIn,
        [...book.instruments.keys()].join(', '),
        `"${said.setIn}" is no instrument declared here: declare it first.`,
      ),
    );
  if (issues.length > 0) return failed(...issues);
  return ok({
    uncertainty: { expanded, coverage, common_share: share },
    trust: 'stated',
    ...(said.setIn !== undefined && { set_in: said.setIn }),
  });
}

export function check(
  book: Book,
  id: string | undefined,
  rest: readonly string[],
  said: ToolSaid,
): Outcome<Draft> {
  const named = toolNamed(book, id);
  if (!named.ok || said.against === undefined || said.read === undefined || rest.length > 0)
    return failed(
      wrongUse(
        'tools check',
        `${id ?? 'no instrument'}, against ${said.against ?? 'nothing'}, read ${said.read ?? 'nothing'}`,
        'a declared instrument, --against and --read',
        `A check names a declared instrument (${[...book.instruments.keys()].join(', ') || 'none yet'}), what it was held --against and what it --read.`,
      ),
    );
  const { when } = said;
  if (when !== undefined && when !== 'before' && when !== 'after')
    return failed(wrongUse('--when', when, 'before or after', 'A check is before or after the readings.'));
  const body = admittedCheck(book, {
    instrument: named.value,
    against: said.against,
    read: said.read,
    limit: said.limit,
    failed: said.good === false,
    when,
    note: said.note,
  });
  return body.ok ? ok({ kind: 'instrument-checked', body: body.value }) : body;
}

export function correction(
  book: Book,
  id: string | undefined,
  _rest: readonly string[],
  said: ToolSaid,
): Outcome<Draft> {
  const named = toolNamed(book, id);
  if (!named.ok) return named;
  const reopening = new Set(book.reopened.values());
  const failedOnes = book.instrumentChecks.filter(
    ({ entry, body }) => body.instrument === named.value && reopening.has(entry.id),
  );
  const body = admittedCorrection(book, {
    check: failedOnes.at(-1)?.entry.id ?? `of ${named.value} that failed`,
    add: said.add,
    doubt: said.doubt,
    why: said.why,
  });
  return body.ok ? ok({ kind: 'readings-corrected', body: body.value }) : body;
}

/** `1/mon: 2.4982in 2.4981in`: a word with a colon says of what and when the readings after it are. */
export function study(
  book: Book,
  id: string | undefined,
  rest: readonly string[],
  said: ToolSaid,
): Outcome<Draft> {
  let [part, occasion]: (string | undefined)[] = [];
  const readings = rest.flatMap((word) => {
    if (!word.endsWith(':')) return [{ ...(part && { part }), ...(occasion && { occasion }), value: word }];
    [part, occasion] = word.slice(0, -1).split('/');
    return [];
  });
  if (readings.length < 2)
    return failed(
      wrongUse(
        'tools study',
        `${readings.length} readings`,
        'two or more, ten say more',
        'A study takes repeated readings: fettle tools JOB study mic 2.4982in 2.4981in 2.4982in …',
      ),
    );
  const body = admittedStudy(book, {
    instrument: id ?? '',
    what: said.what ?? 'one thing',
    readings,
    ...(said.note !== undefined && { note: said.note }),
  });
  return body.ok ? ok({ kind: 'repeat-study', body: body.value }) : body;
}

export function adoption(book: Book, id: string | undefined): Outcome<Draft> {
  const named = toolNamed(book, id);
  if (!named.ok) return named;
  const last = book.studies.filter(({ body }) => body.instrument === named.value).at(-1);
  if (!last)
    return failed(
      wrongUse(
        'tools adopt',
        'no study',
        'a study of it',
        `There is no study of ${named.value} yet: fettle tools JOB study ${named.value} 2.4982in 2.4981in …`,
      ),
    );
  const body = adoptedStudy(book, last.entry.id);
  return body.ok ? ok({ kind: 'instrument-declared', body: body.value }) : body;
}
