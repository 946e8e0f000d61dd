import {
  type Book,
  type Calibration,
  type DiagnosedFamily,
  type Diagnosis,
  diagnosisWords,
  type Family,
  type OutcomeMeaning,
  pressureUnit,
  type RankedTest,
} from '@fettle/book';
import { inUnit, printQuantity } from '@fettle/core';
import { barsText } from '@fettle/draw';
import { heading, table, wrapped } from './table.ts';

interface Said {
  readonly book: Book;
  readonly diagnosis: Diagnosis;
  readonly calibration: Calibration | undefined;
  readonly assumptions: boolean;
}

const WIDTH = 108;
/** Families less likely than this are named in one line. */
const LEAST = 0.01;
/** A test that tells less is not worth its work [bit]. */
const TELLING = 0.05;

const percent = (p: number): string => (p < 0.005 ? 'under 1 %' : `${Math.round(p * 100)} %`);
const short = (value: number): string => String(Number(value.toPrecision(2)));
const paragraph = (text: string): string[] => wrapped(text, WIDTH - 2).map((line) => `  ${line}`);

/** A diagnosis in full, for a person. */
export function diagnosisLines({ book, diagnosis, calibration, assumptions }: Said): string[] {
  const unit = pressureUnit(book);
  return [
    diagnosis.known === 'before-strip'
      ? 'What could be wrong, by the gauge alone: clearances as new and in doubt, nothing taken as measured'
      : 'What could be wrong beyond what was measured, by the gauge and the measured clearances',
    ...readingLines(diagnosis, unit),
    ...familyLines(diagnosis),
    ...alikeLines(diagnosis),
    ...testLines(diagnosis, unit),
    ...(calibration ? calibrationLines(calibration, unit) : []),
    ...restLines(diagnosis, assumptions),
  ];
}

function readingLines({ readings, leftOut, families }: Diagnosis, unit: string): string[] {
  const [best] = families;
  const decimals = unit === 'bar' ? 2 : 1;
  const shown = (pascal: number): string => `${inUnit(pascal, unit).toFixed(decimals)} ${unit}`;
  const left = leftOut.flatMap(({ said, why }) =>
    paragraph(`Left out: ${said.pressure} at ${said.speed}: ${why}.`),
  );
  if (readings.length === 0)
    return [
      ...heading('Readings'),
      '  None that can be weighed: what follows is only what is assumed beforehand.',
      ...left,
    ];
  return [
    ...heading('Readings'),
    ...table(
      [
        ['sump', 'crank', 'gauge', 'the likeliest fault fits as'],
        ...readings.map(({ temperature, speed, pressure, u }, i) => [
          printQuantity(temperature, 'degC', 0),
          printQuantity(speed, 'rpm', 0),
          `${inUnit(pressure, unit).toFixed(decimals)} ±${inUnit(2 * u, unit).toFixed(decimals)} ${unit}`,
          best ? shown(best.fitted[i]!) : '',
        ]),
      ],
      '  ',
    ),
    ...left,
  ];
}

function severityWords({ family, severity, probability }: DiagnosedFamily): string {
  const how = diagnosisWords.chanceWords(probability);
  if (!severity) return how;
  const { of } = family.severity!;
  const range =
    short(severity.from) === short(severity.to)
      ? short(severity.middle)
      : `${short(severity.middle)} (${short(severity.from)} to ${short(severity.to)})`;
  return `${how}; then about ${range} ${of}`;
}

function familyLines(diagnosis: Diagnosis): string[] {
  const shown = diagnosis.families.filter(({ probability }) => probability >= LEAST);
  const rest = diagnosis.families.filter(({ probability }) => probability < LEAST);
  const together = rest.reduce((sum, { probability }) => sum + probability, 0);
  const strain = diagnosisWords.strainWords(diagnosis);
  return [
    ...heading('How likely each is'),
    ...barsText(
      shown.map((one) => ({
        label: one.family.name,
        value: one.probability,
        text: `${percent(one.probability).padStart(4)}  ${severityWords(one)}`,
      })),
      16,
    ).map((line) => `  ${line}`),
    ...(rest.length > 0
      ? paragraph(
          `${percent(together)[0]!.toUpperCase()}${percent(together).slice(1)} together: ${rest.map(({ family }) => family.name).join('; ')}.`,
        )
      : []),
    ...(strain ? paragraph(strain) : []),
  ];
}

function alikeLines({ alike, readings }: Diagnosis): string[] {
  if (alike.length === 0) return [];
  const gauges = new Set(readings.map(({ instrument }) => instrument)).size;
  return [
    ...heading('What the gauge cannot say'),
    ...alike.flatMap((group) => paragraph(diagnosisWords.alikeWords(group, gauges))),
  ];
}

/** `under 16.5 psi`, `16.5 to 31.6 psi`, `3.2 L/min or more`. */
function rangeWords({ from, to, words }: OutcomeMeaning, unit: string): string {
  if (words !== undefined) return words;
  const shown = (value: number): string => inUnit(value, unit).toPrecision(3);
  if (from === undefined) return to === undefined ? 'whatever it shows' : `under ${shown(to)} ${unit}`;
  return to === undefined ? `${shown(from)} ${unit} or more` : `${shown(from)} to ${shown(to)} ${unit}`;
}

const leading = (order: readonly Family[], families: readonly number[]): string =>
  families
    .map((p, f) => ({ p, name: order[f]!.name }))
    .sort((a, b) => b.p - a.p)
    .filter(({ p }, i) => i === 0 || (i < 3 && p >= 0.1))
    .map(({ p, name }) => `${name} ${percent(p)}`)
    .join(', ');

function testLines({ tests, order, known, when }: Diagnosis, unit: string): string[] {
  const [next, ...others] = tests;
  if (!next) return [];
  const further = others.filter(({ bits }) => bits >= TELLING);
  return [
    ...heading('The next test, by what it is expected to tell'),
    ...(next.bits < TELLING
      ? paragraph(
          'None of the tests known here would tell much more than is known already. The most telling:',
        )
      : []),
    ...oneTest(next, order, unit),
    ...(known === 'measured' && when === 'as-found'
      ? paragraph('With the engine apart, what needs it running waits until it is together.')
      : []),
    ...(further.length > 0
      ? [
          '',
          '  Others:',
          ...table(
            further.map(({ plan, probe, bits }) => [
              `${bits.toFixed(2)} bit`,
              `about ${plan.hours} h`,
              `${plan.name}${probe && !plan.name.includes(probe.words) ? `, ${probe.words}` : ''}`,
            ]),
            '    ',
          ),
        ]
      : []),
  ];
}

function oneTest(
  { plan, probe, bits, outcomes }: RankedTest,
  order: readonly Family[],
  unit: string,
): string[] {
  const read = probe?.measures === 'flow' ? 'L/min' : unit;
  return [
    ...paragraph(`${plan.name}: ${bits.toFixed(2)} bit, about ${plan.hours} h of work (assumed).`),
    ...paragraph(`${plan.how}${probe ? ` Read: ${probe.words}.` : ''}`),
    ...outcomes.map(
      (one) =>
        `    ${rangeWords(one, read)} (chance ${percent(one.chance)}): ${leading(order, one.families)}`,
    ),
    ...plan.cautions.flatMap((caution) => paragraph(`Caution: ${caution}`)),
  ];
}

function calibrationLines(calibration: Calibration, unit: string): string[] {
  const decimals = unit === 'bar' ? 2 : 1;
  const shown = ({ value, u }: { value: number; u: number }): string =>
    `${inUnit(value, unit).toFixed(decimals)} ±${inUnit(2 * u, unit).toFixed(decimals)} ${unit}`;
  return [
    ...heading('The model’s own constants'),
    ...paragraph(diagnosisWords.calibrationWords(calibration)),
    ...(calibration.readings.length === 0
      ? []
      : [
          ...calibration.constants.map((one) => `  ${diagnosisWords.constantWords(one)}`),
          ...table(
            [
              ['sump', 'crank', 'constants as assumed', 'calibrated'],
              ...calibration.pressures.map((one) => [
                printQuantity(one.temperature, 'degC', 0),
                printQuantity(one.speed, 'rpm', 0),
                shown(one.uncalibrated),
                shown(one.calibrated),
              ]),
            ],
            '  ',
          ),
          '  Bands at about 95 %, the assumed constants’ doubt in them. As if nothing further were wrong.',
        ]),
  ];
}

function restLines({ assumptions }: Diagnosis, all: boolean): string[] {
  const rest = [
    ...heading('What this rests on'),
    ...paragraph(
      'One fault at a time. How likely each is beforehand, how bad it may be and how far the model is out are assumed, without a source; the gauge’s error is as declared, the part common to its readings kept in common. A figure of this kind says where to look first, not what is wrong.',
    ),
  ];
  if (!all) return [...rest, '  Every assumption: fettle diagnose JOB --assumptions.'];
  return [
    ...rest,
    ...assumptions.flatMap(({ about, taken }) =>
      wrapped(`${about}: ${taken}.`, WIDTH - 2, '  ').map((l) => `  ${l}`),
    ),
  ];
}
