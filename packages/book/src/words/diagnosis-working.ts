import { inUnit, linear, printQuantity } from '@fettle/core';
import { type Diagnosis, STRAINED } from '../diagnosis/diagnosis.ts';
import type { Book } from '../fold/book.ts';
import type { FilledParameter } from '../oil/circuit.ts';
import type { Block } from './block.ts';
import { DIAGNOSIS_GROUNDS, leftOutWords, percent, strainWords } from './diagnosis.ts';
import { entriesWords } from './entry.ts';
import { pressureDecimals, pressureUnit } from './pressure.ts';
import { operandWords, shown } from './quantity.ts';
import { sourceWords } from './source.ts';

const figure = (value: number): string =>
  value < 1e-4 ? 'under 0.0001' : String(Number(value.toPrecision(2)));

/**
 * Where the weighing of faults comes from: method and sources, readings, what each fault foretells, what is assumed.
 *
 * @param parameters  of the circuit it was weighed on, where its clearances are told too
 */
export function diagnosisWorking(
  book: Book,
  diagnosis: Diagnosis,
  parameters: readonly FilledParameter[] | undefined,
): Block[] {
  return [
    method(diagnosis),
    read(book, diagnosis),
    weighedFaults(book, diagnosis),
    ...(parameters && diagnosis.known === 'measured' ? [clearances(book, parameters)] : []),
    assumed(diagnosis),
  ];
}

const method = (diagnosis: Diagnosis): Block => ({
  title: 'How the faults are weighed',
  lines: [
    'P(fault | readings) = prior × evidence, over the same sum for all faults (Bayes’ theorem).',
    'Evidence = the density of the readings under the fault, averaged over how bad it may be by Simpson’s rule: normal around the solved circuit’s pressures with the fault in it, with the covariance of gauge, clearances read and the model’s own constants.',
    `Told apart only where the readings move the odds enough; source of the scale: ${sourceWords('kass-raftery-1995')}.`,
    `The best single fault is doubted where it strays so far that chance alone would do so under ${percent(STRAINED)} of the time; source: ${sourceWords('wilson-hilferty-1931')}. Here: ${percent(diagnosis.fit)}.`,
    'Laws of the circuit and their sources: fettle calc oil-network.',
  ],
  notes: [DIAGNOSIS_GROUNDS, strainWords(diagnosis) ?? ''].filter((words) => words !== ''),
});

function read(book: Book, { readings, leftOut }: Diagnosis): Block {
  const unit = pressureUnit(book);
  const decimals = pressureDecimals(unit);
  return {
    title: 'The gauge readings',
    lines: readings.length === 0 ? ['None can be weighed: every fault keeps what it had beforehand.'] : [],
    ...(readings.length > 0 && {
      table: {
        head: ['no.', 'sump', 'crank', 'gauge', 'u', 'common', 'taken with', 'entered'],
        rows: readings.map((one, i) => [
          String(i + 1),
          printQuantity(one.temperature, 'degC', 0),
          printQuantity(one.speed, 'rpm', 0),
          `${inUnit(one.pressure, unit).toFixed(decimals)} ${unit}`,
          `${inUnit(one.u, unit).toFixed(decimals + 1)} ${unit}`,
          `${Math.round(one.common * 100)} %`,
          book.instruments.get(one.instrument)?.body.name ?? one.instrument,
          entriesWords(book, [one.entry]),
        ]),
      },
    }),
    notes: [
      'u is the gauge’s standard uncertainty as declared; “common” the share of its variance that all its readings have together.',
      ...leftOut.map(leftOutWords),
    ],
  };
}

function weighedFaults(book: Book, { families, readings }: Diagnosis): Block {
  const unit = pressureUnit(book);
  const decimals = pressureDecimals(unit);
  const nothing = families.find(({ family }) => family.kind === 'nothing');
  return {
    title: 'Each fault, before and after',
    lines: [
      `Evidence is told beside that of “${nothing?.family.name ?? 'nothing wrong'}”. Before × evidence, over the sum of that column, is after.`,
    ],
    table: {
      head: [
        'fault',
        'before',
        'evidence',
        'after',
        ...(readings.length > 0 ? [`foretold for readings 1 to ${readings.length}, ${unit}`] : []),
      ],
      rows: families.map(({ family, bayesFactor, probability, fitted }) => [
        family.name,
        percent(family.prior),
        `${figure(bayesFactor)} ×`,
        percent(probability),
        ...(readings.length > 0
          ? [probability > 0 ? fitted.map((p) => inUnit(p, unit).toFixed(decimals)).join(', ') : '']
          : []),
      ]),
    },
    notes: [
      'Foretold: what a perfect gauge would show, all else that is in doubt set as the readings want it.',
    ],
  };
}

const clearances = (book: Book, parameters: readonly FilledParameter[]): Block => ({
  title: 'The clearances it goes by',
  lines: ['As measured, with their doubt; what was not measured stands as new.'],
  table: {
    head: ['in the circuit', 'characteristic', 'measured', 'as new', 'entered'],
    rows: parameters.map(({ name, characteristic, factor, nominal, measured, entries }) => [
      name,
      characteristic.name,
      measured
        ? operandWords(characteristic, { kind: 'value', q: linear([{ factor: 1 / factor, of: measured }]) })
        : 'not measured',
      shown(characteristic, nominal / factor),
      entriesWords(book, entries),
    ]),
  },
  notes: [],
});

const assumed = ({ assumptions }: Diagnosis): Block => ({
  title: 'What is assumed, without a source',
  lines: assumptions.map(({ about, taken }) => `${about}: ${taken}.`),
  notes: [],
});
