import { type Book, type Narrowing, narrowingWords, pressureUnit, pressureWords } from '@fettle/book';
import { coverageFactor, standardUncertainty } from '@fettle/core';
import type { Condition } from './oil-lines.ts';
import { heading, table, wrapped } from './table.ts';

/** Which readings, taken better, would narrow the band of the predicted pressure. */
export function narrowingLines(book: Book, condition: Condition, found: Narrowing): string[] {
  const unit = pressureUnit(book);
  const u = standardUncertainty(found.pressure);
  const title = heading(
    `What would narrow the band at ${condition.speedWords} and ${condition.words}: ${pressureWords(found.pressure, unit)}`,
  );
  const unmeasured = narrowingWords.unmeasuredWords(found);
  if (u === 0) return [...title, ...said(narrowingWords.NO_DOUBT), ...said(unmeasured)];
  const band = narrowingWords.bandWords(found, unit);
  const rows = found.readings
    .slice(0, narrowingWords.NARROWING_ROWS)
    .map(({ characteristic, instrumentName, readings, without, finest }) => [
      characteristic.name,
      `${readings.length === 1 ? readings[0]!.said : `${readings.length} readings`}`,
      instrumentName,
      band(without),
      finest ? `${finest.name}: ${band(finest.left)}` : 'no finer one',
    ]);
  const [best] = found.readings;
  const causes = found.causes
    .slice(0, narrowingWords.NARROWING_ROWS)
    .map((one) => [`${Math.round(one.share * 100)} %`.padStart(5), narrowingWords.causeWords(one)]);
  return [
    ...title,
    ...table([['readings', 'said', 'taken with', 'without error', 'by the finest owned'], ...rows], '  '),
    '',
    ...said(best ? narrowingWords.bestWords(best, best.without / u, band) : ''),
    ...said(unmeasured),
    '',
    '  The variance by its causes:',
    ...table(causes, '  '),
    ...said(
      `${narrowingWords.NARROWING_GROUNDS} Coverage factor ${coverageFactor(0.95, Number.POSITIVE_INFINITY).toFixed(2)}. Entries: --json.`,
    ),
  ];
}

const said = (text: string): string[] =>
  text === '' ? [] : wrapped(text, 104, '  ').map((line, i) => (i === 0 ? `  ${line}` : line));

/** The same figures for programs, in SI. */
export const narrowingJson = (
  condition: Condition,
  { pressure, causes, readings, unmeasured }: Narrowing,
) => ({
  speed: condition.speed,
  temperature: condition.temperature,
  pressure: pressure.value,
  standard_uncertainty: standardUncertainty(pressure),
  causes,
  readings: readings.map(({ characteristic, instrument, readings: those, without, share, finest }) => ({
    characteristic: characteristic.id,
    instrument,
    readings: those,
    standard_uncertainty_without: without,
    share_of_variance: share,
    finest: finest && { instrument: finest.instrument, standard_uncertainty: finest.left },
  })),
  unmeasured: unmeasured.map(({ id }) => id),
});
