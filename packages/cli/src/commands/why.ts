import {
  type Assessed,
  asFittedNow,
  asFound,
  assessment,
  type Book,
  type Member,
  placeText,
  type Relation,
  sourceOf,
  unknownCharacteristic,
  type Witness,
} from '@fettle/book';
import { expanded, failed, type Outcome, ok } from '@fettle/core';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { nameOf } from '../words/judgement.ts';
import { judgementJson } from '../words/judgement-json.ts';
import { judgementLines } from '../words/judgement-lines.ts';
import { limitWords, operandWords, shown } from '../words/quantity.ts';
import { heading, table } from '../words/table.ts';

export const registerWhy: Register = (program, run) => {
  program
    .command('why <job> <name>')
    .description(
      'the working behind a figure: limits and where they come from, readings, uncertainty, what decided',
    )
    .option('--as-found', 'the engine as it came')
    .addHelpText(
      'after',
      '\nExamples:\n  fettle why linnet pump.end-clearance\n  fettle why linnet crank.rod-journal@2',
    )
    .action((job: string, name: string, said: { asFound?: boolean }) =>
      run(async (context): Promise<Outcome<Reply>> => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        const [id, at] = name.split('@');
        if (!book.characteristics.has(id!)) return failed(unknownCharacteristic(book, id!));
        const { judgements } = assessment(book, said.asFound ? asFound(book) : asFittedNow(book));
        const meant = judgements.filter(
          (j) => j.characteristic.id === id && (at === undefined || placeText(j.place) === at),
        );
        if (meant.length === 0)
          return failed({
            code: 'place/unknown',
            at: id!,
            got: at ?? '',
            wanted: judgements
              .filter((j) => j.characteristic.id === id)
              .map(nameOf)
              .join(', '),
            message: `Nothing is judged at "${at}". Take one of ${judgements
              .filter((j) => j.characteristic.id === id)
              .map(nameOf)
              .join(', ')}.`,
          });
        return ok({
          json: meant.map((judgement) => ({
            ...judgementJson(judgement),
            working: workingJson(book, judgement),
          })),
          text: meant.flatMap((judgement) => working(book, judgement)).join('\n'),
        });
      }),
    );
};

/** The relation as a formula one could write beside the figure. */
function relationWords(relation: Relation): string {
  if (typeof relation === 'string') return relation;
  if ('characteristic' in relation)
    return `${relation.characteristic}${relation.at ? `@${Object.values(relation.at).join('/')}` : ''}`;
  if ('linear' in relation) return linearWords(relation.linear);
  if ('reduce' in relation)
    return `${relation.reduce.by} over ${relation.reduce.over.join(', ')} of ${relationWords(relation.reduce.of)}`;
  if ('ratio' in relation) return `(${linearWords(relation.ratio.of)}) / (${linearWords(relation.ratio.by)})`;
  const inputs = Object.entries(relation.calculator.inputs).map(
    ([key, input]) => `${key}=${'of' in input ? relationWords(input.of) : input.is}`,
  );
  return `${relation.calculator.output} of ${relation.calculator.name}(${inputs.join(', ')})`;
}

function linearWords({
  terms,
  constant,
}: {
  terms: { factor: number; of: Relation }[];
  constant?: string | undefined;
}): string {
  const words = terms.map(({ factor, of }, i) => {
    const size = Math.abs(factor);
    const sign = factor < 0 ? '− ' : i > 0 ? '+ ' : '';
    return `${sign}${size === 1 ? '' : `${Number(size.toPrecision(4))} × `}${relationWords(of)}`;
  });
  return [...words, ...(constant === undefined ? [] : [`+ ${constant}`])].join(' ');
}

function sourceLine(book: Book, judgement: Assessed, set: 'new' | 'wear'): string {
  const source = sourceOf(judgement.characteristic, set);
  if (!source) return 'no source stated';
  const document = book.sheet?.documents[source.document];
  return [
    document?.title ?? source.document,
    document?.edition,
    source.page && `page ${source.page}`,
    source.trust,
  ]
    .filter((x) => x !== undefined)
    .join(', ');
}

function working(book: Book, judgement: Assessed): string[] {
  const { characteristic } = judgement;
  const limits = (['new', 'wear'] as const).flatMap((set) => {
    const verdict = judgement.verdicts[set];
    const printed = characteristic.limits?.[set];
    if (!printed) return [];
    const words = verdict
      ? limitWords(characteristic, verdict.limits)
      : [printed.lower, printed.upper].filter(Boolean).join(' to ');
    return [
      [
        set === judgement.governing ? '→' : '',
        set,
        words,
        verdict ? verdict.verdict.replace('-', ' ') : 'not judged',
        verdict?.probabilityIn === undefined ? '' : `${percent(verdict.probabilityIn)} inside`,
        verdict?.guardBand === undefined ? '' : `guard band ${shown(characteristic, verdict.guardBand)}`,
        sourceLine(book, judgement, set),
      ],
    ];
  });
  return [
    ...judgementLines(judgement),
    '',
    ...(characteristic.taken === undefined ? [] : [`  taken: ${characteristic.taken}`]),
    ...(characteristic.caution === undefined ? [] : [`  caution: ${characteristic.caution}`]),
    ...(characteristic.note === undefined ? [] : [`  note: ${characteristic.note}`]),
    ...(characteristic.no_limits === undefined ? [] : [`  no limits: ${characteristic.no_limits}`]),
    ...(characteristic.relation === undefined
      ? []
      : [`  formula: ${relationWords(characteristic.relation)}`]),
    ...(characteristic.reduce === undefined
      ? []
      : [`  judged: the ${characteristic.reduce.by} over ${characteristic.reduce.over.join(', ')}`]),
    ...(limits.length > 0 ? [...heading('Limits and both verdicts'), ...table(limits, '  ')] : []),
    ...(judgement.governing
      ? [
          `  ${governingWords(judgement)}`,
          '  In or out is said from 95 % on (ISO 14253-1:2017; guard band 1.645 u); between, nobody can tell.',
        ]
      : []),
    ...memberLines(book, judgement),
    ...budgetLines(judgement),
    '',
  ];
}

const percent = (p: number): string =>
  p > 0.9999
    ? 'over 99.99 %'
    : p < 0.0001
      ? 'under 0.01 %'
      : `${(100 * p).toFixed(p > 0.99 || p < 0.01 ? 2 : 0)} %`;

function governingWords({ governing, states, characteristic }: Assessed): string {
  if (!characteristic.limits?.new || !characteristic.limits?.wear)
    return `The ${governing} limits are the only ones given, so they serve for all parts.`;
  const conditions =
    [...new Set(states.map(({ condition }) => condition))].join(' and ') || 'no part entered';
  return `The ${governing} limits decide, because the parts are: ${conditions}.`;
}

function memberLines(book: Book, judgement: Assessed): string[] {
  const lines = judgement.members.flatMap((member) =>
    member.known.witnesses.flatMap((witness) => witnessRows(book, judgement, member, witness)),
  );
  return lines.length > 0 ? [...heading('Witnesses, place by place'), ...table(lines, '  ')] : [];
}

function witnessRows(
  book: Book,
  { characteristic, governing }: Assessed,
  member: Member,
  witness: Witness,
): string[][] {
  const verdict = governing && member.verdicts[governing];
  const rows = [
    [
      placeText(member.place),
      witness.by === 'relation'
        ? 'by formula'
        : `by ${witness.with}${witness.measurand === characteristic.measurand ? '' : ` (${witness.measurand})`}`,
      operandWords(characteristic, witness.operand),
      verdict ? verdict.verdict.replace('-', ' ') : '',
    ],
  ];
  for (const id of witness.entries) {
    const reading = book.readings.find(({ entry }) => entry.id === id);
    if (!reading) continue;
    const { body, entry } = reading;
    const said =
      body.value ??
      [body.goes && `${body.goes} goes`, body.stops && `${body.stops} stops`].filter(Boolean).join(', ');
    const first = body.asked ? `; first said ${body.asked.first_said}` : '';
    const at = Object.values(body.place ?? {}).join('/');
    rows.push([
      '',
      `  ${body.characteristic}${at === '' ? '' : `@${at}`}`,
      `${said}${body.temperature?.part ? ` at ${body.temperature.part}` : ''}`,
      `${body.instrument}, ${entry.who}, ${entry.id}${first}`,
    ]);
  }
  return rows;
}

/** The causes of doubt in what is judged, largest first. */
function budgetLines({ operand, characteristic }: Assessed): string[] {
  if (operand.kind !== 'value' || operand.q.terms.length === 0) return [];
  const total = operand.q.terms.reduce((sum, { u }) => sum + u * u, 0);
  const { U, k, dof } = expanded(operand.q);
  const rows = [...operand.q.terms]
    .sort((a, b) => Math.abs(b.u) - Math.abs(a.u))
    .slice(0, 12)
    .map(({ source, u, shape }) => [
      source,
      `u = ${Math.abs(u).toPrecision(2)} (SI)`,
      `${((100 * u * u) / total).toFixed(0)} % of the variance`,
      shape,
    ]);
  return [
    ...heading('Where the doubt comes from'),
    ...table(rows, '  '),
    `  together ±${shown(characteristic, U)} at about 95 % (k = ${k.toFixed(2)}${Number.isFinite(dof) ? `, ${dof.toFixed(1)} degrees of freedom` : ''})`,
  ];
}

function workingJson(book: Book, judgement: Assessed) {
  const { characteristic, operand } = judgement;
  return {
    formula: characteristic.relation === undefined ? undefined : relationWords(characteristic.relation),
    sources: Object.fromEntries(
      (['new', 'wear'] as const).flatMap((set) =>
        characteristic.limits?.[set] ? [[set, sourceOf(characteristic, set)]] : [],
      ),
    ),
    budget: operand.kind === 'value' ? operand.q.terms : [],
    readings: book.readings
      .filter(({ entry }) => judgement.entries.includes(entry.id))
      .map(({ entry }) => entry),
  };
}
