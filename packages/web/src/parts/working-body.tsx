import {
  type Assessed,
  type Book,
  leavesWords,
  type Member,
  placeText,
  proofWords,
  type ReadingOnRecord,
  relationWords,
  type SourcedBounds,
  sourcesOf,
  temperatureCauseWords,
  type Witness,
} from '@fettle/book';
import { expanded } from '@fettle/core';
import { book } from '../state/job.ts';
import { nameIn } from '../words/issue.ts';
import { STATUS_WORDS } from '../words/judgement.ts';
import { placeWords } from '../words/place.ts';
import { limitWords, operandWords, shown, uncertaintyWords } from '../words/quantity.ts';
import { StrikeEntry } from './strike-entry.tsx';

/** What `Working` opens. */
export function WorkingBody({ judgement }: { readonly judgement: Assessed }) {
  const { characteristic } = judgement;
  const now = book.value;
  return (
    <div class="working-body">
      <dl class="facts">
        {characteristic.taken ? <Fact name="Taken" text={characteristic.taken} /> : null}
        {characteristic.relation !== undefined ? (
          <Fact name="Formula" text={relationWords(characteristic.relation)} />
        ) : null}
        {characteristic.reduce ? (
          <Fact
            name="Judged"
            text={`the ${characteristic.reduce.by} over ${characteristic.reduce.over.join(', ')}`}
          />
        ) : null}
        {characteristic.no_limits && !characteristic.limits ? (
          <Fact name="No limits" text={characteristic.no_limits} />
        ) : null}
        {characteristic.note ? <Fact name="Note" text={characteristic.note} /> : null}
      </dl>
      <Limits book={now} judgement={judgement} />
      <Witnesses book={now} judgement={judgement} />
      <Budget book={now} judgement={judgement} />
    </div>
  );
}

const Fact = ({ name, text }: { readonly name: string; readonly text: string }) => (
  <>
    <dt>{name}</dt>
    <dd>{text}</dd>
  </>
);

function sourceWords(now: Book, source: SourcedBounds['source']): string {
  if (!source) return 'no source stated';
  const document = now.sheet?.documents[source.document];
  return [
    document?.title ?? source.document,
    document?.edition,
    source.page && `page ${source.page}`,
    source.trust,
  ]
    .filter((part) => part !== undefined && part !== '')
    .join(', ');
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

function Limits({ book: now, judgement }: { readonly book: Book; readonly judgement: Assessed }) {
  const { characteristic, governing } = judgement;
  const sets = (['new', 'wear'] as const).filter((set) => characteristic.limits?.[set]);
  if (sets.length === 0) return null;
  return (
    <section>
      <h2>Limits and both verdicts</h2>
      <ul class="lines">
        {sets.map((set) => {
          const verdict = judgement.verdicts[set];
          const printed = characteristic.limits?.[set];
          const limits = verdict
            ? limitWords(characteristic, verdict.limits)
            : [printed?.lower, printed?.upper].filter(Boolean).join(' to ');
          return (
            <li key={set}>
              <strong>
                {set === 'new' ? 'New' : 'Wear'}
                {set === governing ? ' (decides)' : ''}
              </strong>
              : {limits}.{' '}
              {verdict ? (
                <>
                  {STATUS_WORDS[verdict.verdict]}
                  {verdict.probabilityIn === undefined ? '' : `, ${percent(verdict.probabilityIn)} inside`}
                  {verdict.guardBand === undefined
                    ? ''
                    : `, guard band ${shown(characteristic, verdict.guardBand)}`}
                  .{' '}
                </>
              ) : (
                'Not judged yet. '
              )}
              {sourcesOf(characteristic, set).map((one, _, all) => (
                <span key={one.bounds.join()} class="soft">
                  {all.length > 1 ? `${one.bounds.join(' and ')}: ` : ''}
                  {sourceWords(now, one.source)}
                </span>
              ))}
            </li>
          );
        })}
      </ul>
      {governing ? (
        <p class="soft">
          {governingWords(judgement)} {proofWords(judgement)}
        </p>
      ) : null}
    </section>
  );
}

function Witnesses({ book: now, judgement }: { readonly book: Book; readonly judgement: Assessed }) {
  const members = judgement.members.filter(({ known }) => known.witnesses.length > 0);
  if (judgement.sight)
    return (
      <section>
        <h2>Seen</h2>
        <p>
          {judgement.sight.body.found}; {judgement.sight.entry.who}, {when(judgement.sight.entry.at)}
        </p>
        <StrikeEntry entry={judgement.sight.entry.id} />
      </section>
    );
  if (members.length === 0) return null;
  return (
    <section>
      <h2>Witnesses, place by place</h2>
      {members.map((member) => (
        <div key={placeText(member.place)} class="member">
          {placeText(member.place) === '' ? null : (
            <h3>{placeWords(judgement.characteristic, member.place)}</h3>
          )}
          {member.known.witnesses.map((witness, i) => (
            <WitnessLines
              key={`${witness.with} ${witness.measurand}`}
              {...{ now, judgement, member, witness, i }}
            />
          ))}
        </div>
      ))}
    </section>
  );
}

interface OneWitness {
  readonly now: Book;
  readonly judgement: Assessed;
  readonly member: Member;
  readonly witness: Witness;
  readonly i: number;
}

function WitnessLines({ now, judgement, member, witness, i }: OneWitness) {
  const { characteristic, governing } = judgement;
  const alone = governing && member.alone[i]?.[governing]?.verdict;
  const way = witness.measurand === characteristic.measurand ? '' : `, ${witness.measurand}`;
  const readings = witness.entries.flatMap((id) => now.readings.find(({ entry }) => entry.id === id) ?? []);
  return (
    <>
      <p>
        {witness.by === 'relation' ? 'By formula' : `By ${witness.with}${way}`}:{' '}
        <strong>{operandWords(characteristic, witness.operand)}</strong>
        {alone ? `; alone: ${STATUS_WORDS[alone].toLowerCase()}` : ''}
      </p>
      <ul class="lines">
        {readings.map((reading) => (
          <li key={reading.entry.id}>
            {readingWords(now, reading)}
            <StrikeEntry entry={reading.entry.id} />
          </li>
        ))}
      </ul>
    </>
  );
}

const when = (at: string): string => at.slice(0, 16).replace('T', ' ');

/** What was entered, in one line. */
function readingWords(now: Book, { body, entry, standing, correction }: ReadingOnRecord): string {
  const characteristic = now.characteristics.get(body.characteristic);
  const at = characteristic ? placeWords(characteristic, body.place ?? {}) : placeText(body.place ?? {});
  const warmth = body.temperature?.part === undefined ? '' : ` at ${body.temperature.part}`;
  const first = body.asked ? `; first typed ${body.asked.first_said}` : '';
  const mended = correction ? `, corrected by ${correction.add}` : '';
  const again = standing === 'to-be-taken-again' ? ', to be taken again' : '';
  const name = `${nameIn(now, body.characteristic)}${at === '' ? '' : `, ${at}`}`;
  const instrument = now.instruments.get(body.instrument)?.body.name ?? body.instrument;
  return `${name}: ${body.value ?? leavesWords.leafAnswerWords(body)}${warmth}${mended}${again}${first}. ${instrument}, ${entry.who}, ${when(entry.at)}`;
}

/** A cause of doubt in the words of the bench. */
function causeWords(now: Book, source: string): string {
  const [kind, ...rest] = source.split(':');
  const id = rest.join(':');
  if (kind === 'instrument') return `${now.instruments.get(id)?.body.name ?? id}, common to all its readings`;
  if (kind === 'correction') return 'the correction after a failed check, common to all it corrects';
  if (kind === 'reading') {
    const reading = now.readings.find(({ entry }) => entry.id === id);
    return reading ? `the reading of ${nameIn(now, reading.body.characteristic)} itself` : source;
  }
  return temperatureCauseWords(now, source) ?? source;
}

function Budget({ book: now, judgement }: { readonly book: Book; readonly judgement: Assessed }) {
  const { operand, characteristic } = judgement;
  if (operand.kind !== 'value' || operand.q.terms.length === 0) return null;
  const total = operand.q.terms.reduce((sum, { u }) => sum + u * u, 0);
  const { U, k, dof } = expanded(operand.q);
  const freedom = Number.isFinite(dof) ? `, ${dof.toFixed(1)} degrees of freedom` : '';
  const terms = [...operand.q.terms].sort((a, b) => Math.abs(b.u) - Math.abs(a.u)).slice(0, 12);
  return (
    <section>
      <h2>Where the doubt comes from</h2>
      <ul class="lines">
        {terms.map(({ source, u }) => (
          <li key={source}>
            {causeWords(now, source)}: u {uncertaintyWords(characteristic, Math.abs(u))},{' '}
            {((100 * u * u) / total).toFixed(0)} % of the variance
          </li>
        ))}
      </ul>
      <p class="soft">
        Together ±{uncertaintyWords(characteristic, U)} at about 95 % (k = {k.toFixed(2)}
        {freedom}).
      </p>
    </section>
  );
}
