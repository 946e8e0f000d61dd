import {
  type Assessed,
  asFittedNow,
  asRead,
  type Book,
  type Further,
  leavesWords,
  type Member,
  nextMoveWords,
  placeText,
  proofWords,
  type ReadingOnRecord,
  relationWords,
  type SourcedBounds,
  sourcedName,
  sourcesOf,
  temperatureCauseWords,
  temperatureNote,
  type Witness,
} from '@fettle/book';
import { CATALOGUE, expanded } from '@fettle/core';
import { judgementLines } from './judgement-lines.ts';
import { limitWords, operandWords, shown, uncertaintyWords } from './quantity.ts';
import { heading, table, wrapped } from './table.ts';

function sourceLine(book: Book, source: SourcedBounds['source']): string {
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

const said = (what: string, words: string | undefined): string[] =>
  words === undefined ? [] : wrapped(`${what}: ${words}`, 104, '  ').map((line) => `  ${line}`);

export function workingLines(book: Book, judgement: Assessed, further?: Further): string[] {
  const { characteristic } = judgement;
  const limits = (['new', 'wear'] as const).flatMap((set) => {
    const verdict = judgement.verdicts[set];
    const printed = characteristic.limits?.[set];
    if (!printed) return [];
    const words = verdict
      ? limitWords(characteristic, verdict.limits)
      : [printed.lower, printed.upper].every((one) => one !== undefined)
        ? `${printed.lower} to ${printed.upper}`
        : printed.upper !== undefined
          ? `max ${printed.upper}`
          : `min ${printed.lower ?? 'not given'}`;
    return [
      [
        set === judgement.governing ? '→' : '',
        set,
        words,
        verdict ? verdict.verdict.replace('-', ' ') : 'not judged',
        verdict?.probabilityIn === undefined ? '' : `${percent(verdict.probabilityIn)} inside`,
        verdict?.guardBand === undefined ? '' : `guard band ${shown(characteristic, verdict.guardBand)}`,
      ],
    ];
  });
  const sources = (['new', 'wear'] as const).flatMap((set) =>
    characteristic.limits?.[set]
      ? sourcesOf(characteristic, set).map(
          (one, _, all) => `  ${sourcedName(set, one, all.length)}: ${sourceLine(book, one.source)}`,
        )
      : [],
  );
  return [
    ...judgementLines(judgement, true, further),
    ...(further
      ? wrapped(nextMoveWords.CHANCE_GROUNDS, 93, '  ').map((line) => `               ${line}`)
      : []),
    '',
    ...said('taken', characteristic.taken),
    ...said('caution', characteristic.caution),
    ...said('note', characteristic.note),
    ...said('no limits', characteristic.no_limits),
    ...said('formula', characteristic.relation && relationWords(characteristic.relation)),
    ...(characteristic.reduce === undefined
      ? []
      : [`  judged: the ${characteristic.reduce.by} over ${characteristic.reduce.over.join(', ')}`]),
    ...(limits.length > 0
      ? [...heading('Limits and both verdicts'), ...table(limits, '  '), ...sources]
      : []),
    ...(judgement.governing
      ? [
          `  ${governingWords(judgement)}`,
          ...wrapped(proofWords(judgement), 104, '  ').map((line) => `  ${line}`),
        ]
      : []),
    ...temperatureLines(book, judgement),
    ...memberLines(book, judgement),
    ...budgetLines(book, judgement),
    '',
  ];
}

function temperatureLines(book: Book, judgement: Assessed): string[] {
  const cold = asRead(book, asFittedNow(book), CATALOGUE, judgement);
  return cold ? wrapped(temperatureNote(judgement, cold), 104, '  ').map((line) => `  ${line}`) : [];
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
  { place, alone, known }: Member,
  witness: Witness,
): string[][] {
  // Each by itself: what one alone cannot tell another may.
  const verdict = governing && alone[known.witnesses.indexOf(witness)]?.[governing];
  const way = witness.measurand === characteristic.measurand ? '' : ` (${witness.measurand})`;
  return [
    [
      placeText(place),
      witness.by === 'relation' ? 'by formula' : `by ${witness.with}${way}`,
      operandWords(characteristic, witness.operand),
      verdict ? `alone: ${verdict.verdict.replace('-', ' ')}` : '',
    ],
    ...witness.entries.flatMap((id) => {
      const reading = book.readings.find(({ entry }) => entry.id === id);
      return reading ? [readingRow(book, reading)] : [];
    }),
  ];
}

function readingRow(book: Book, { body, entry, standing, correction }: ReadingOnRecord): string[] {
  const axes = book.characteristics.get(body.characteristic)?.places;
  const at = placeText(body.place ?? {}, axes);
  const warmth = body.temperature?.part === undefined ? '' : ` at ${body.temperature.part}`;
  const first = body.asked ? `; first said ${body.asked.first_said}` : '';
  return [
    '',
    `  ${body.characteristic}${at === '' ? '' : `@${at}`}`,
    `${body.value ?? leavesWords.leafAnswerWords(body)}${warmth}${correction ? `, corrected by ${correction.add}` : ''}${standing === 'to-be-taken-again' ? ', to be taken again' : ''}`,
    `${body.instrument}, ${entry.who}, ${entry.id}${first}`,
  ];
}

/** A cause of doubt in the words of the bench. */
function causeWords(book: Book, source: string): string {
  const [kind, ...rest] = source.split(':');
  const id = rest.join(':');
  if (kind === 'instrument')
    return `${book.instruments.get(id)?.body.name ?? id}, common to all its readings`;
  if (kind === 'reading') {
    const reading = book.readings.find(({ entry }) => entry.id === id);
    return reading ? `the reading of ${reading.body.characteristic} itself, ${id}` : source;
  }
  if (kind === 'correction') return 'the correction after a failed check, common to all it corrects';
  return temperatureCauseWords(book, source) ?? source;
}

/** The causes of doubt in what is judged, largest first. */
function budgetLines(book: Book, { operand, characteristic }: Assessed): string[] {
  if (operand.kind !== 'value' || operand.q.terms.length === 0) return [];
  const total = operand.q.terms.reduce((sum, { u }) => sum + u * u, 0);
  const { U, k, dof } = expanded(operand.q);
  const rows = [...operand.q.terms]
    .sort((a, b) => Math.abs(b.u) - Math.abs(a.u))
    .slice(0, 12)
    .map(({ source, u, shape }) => [
      causeWords(book, source),
      `u ${uncertaintyWords(characteristic, Math.abs(u))}`,
      `${((100 * u * u) / total).toFixed(0)} % of the variance`,
      shape,
    ]);
  const freedom = Number.isFinite(dof) ? `, ${dof.toFixed(1)} degrees of freedom` : '';
  return [
    ...heading('Where the doubt comes from'),
    ...table(rows, '  '),
    `  together ±${uncertaintyWords(characteristic, U)} at about 95 % (k = ${k.toFixed(2)}${freedom})`,
  ];
}
