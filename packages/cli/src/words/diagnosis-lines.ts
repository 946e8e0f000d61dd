import {
  type Book,
  type Calibration,
  type Diagnosis,
  diagnosisWords,
  type Family,
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
const { percent } = diagnosisWords;
const paragraph = (text: string): string[] => wrapped(text, WIDTH - 2).map((line) => `  ${line}`);
const said = (text: string): string[] => (text === '' ? [] : paragraph(text));

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
  const left = leftOut.flatMap((one) => paragraph(diagnosisWords.leftOutWords(one)));
  if (readings.length === 0)
    return [...heading('Readings'), ...paragraph(diagnosisWords.NO_READINGS), ...left];
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

function familyLines(diagnosis: Diagnosis): string[] {
  const { shown, rest } = diagnosisWords.byLikelihood(diagnosis);
  const strain = diagnosisWords.strainWords(diagnosis);
  return [
    ...heading('How likely each is'),
    ...barsText(
      shown.map((one) => ({
        label: one.family.name,
        value: one.probability,
        text: `${percent(one.probability).padStart(4)}  ${diagnosisWords.severityWords(one)}`,
      })),
      16,
    ).map((line) => `  ${line}`),
    ...said(rest),
    ...said(strain ?? ''),
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

function testLines(diagnosis: Diagnosis, unit: string): string[] {
  const [next] = diagnosis.tests;
  if (!next) return [];
  const further = diagnosisWords.furtherTests(diagnosis);
  return [
    ...heading('The next test, by what it is expected to tell'),
    ...said(diagnosisWords.littleToldWords(next)),
    ...oneTest(next, diagnosis.order, unit),
    ...said(diagnosisWords.waitingWords(diagnosis)),
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

function oneTest(test: RankedTest, order: readonly Family[], unit: string): string[] {
  return [
    ...paragraph(`${test.plan.name}: ${diagnosisWords.testWords(test)}`),
    ...test.outcomes.map(
      (one) =>
        `    ${diagnosisWords.outcomeWords(test, one, unit)} (chance ${percent(one.chance)}): ${diagnosisWords.leadingWords(order, one)}`,
    ),
    ...test.plan.cautions.flatMap((caution) => paragraph(`Caution: ${caution}`)),
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
  const rest = [...heading('What this rests on'), ...paragraph(diagnosisWords.DIAGNOSIS_GROUNDS)];
  if (!all) return [...rest, '  Every assumption: fettle diagnose JOB --assumptions.'];
  return [
    ...rest,
    ...assumptions.flatMap(({ about, taken }) =>
      wrapped(`${about}: ${taken}.`, WIDTH - 2, '  ').map((l) => `  ${l}`),
    ),
  ];
}
