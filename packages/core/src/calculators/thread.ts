import { calculator } from '../catalogue/calculator.ts';
import { text } from '../catalogue/field.ts';
import { threadFrom } from '../fasteners/designation.ts';
import {
  minorDiameterExternal,
  minorDiameterInternal,
  pitchDiameter,
  stressArea,
} from '../fasteners/thread.ts';

export const THREAD = calculator({
  name: 'thread',
  sentence: 'Basic sizes and stress area of a Unified or ISO metric thread from its designation.',
  formula: [
    'd2 = d − 0.649519 P',
    'D1 = d − 1.082532 P',
    'A = (π/4)(d − 0.938194 P)² metric, (π/4)(d − 0.974279 P)² Unified',
  ],
  sources: ['asme-b1-1', 'iso-261', 'iso-724', 'iso-898-1'],
  input: {
    designation: text(
      'As the trade writes it: size and threads per inch, or M, diameter and pitch',
      '5/16-18 UNC',
    ),
  },
  output: {
    designation: { kind: 'value', doc: 'As the standard writes it' },
    major_diameter: { kind: 'length', doc: 'd, nominal' },
    pitch: { kind: 'length', doc: 'P' },
    pitch_diameter: { kind: 'length', doc: 'd2, basic' },
    minor_diameter_internal: { kind: 'length', doc: 'D1, basic: the tapping size' },
    minor_diameter_external: { kind: 'length', doc: 'd3, at the rounded root' },
    stress_area: { kind: 'area', doc: 'A, tensile' },
  },
  range:
    'Unified #0 to 2 in and ISO metric M1.6 to M48, 60° only; Whitworth, BSF, cycle, BA and pipe threads are not known',
  example: { designation: '5/16-18 UNC' },
  compute: ({ designation }) => {
    const read = threadFrom(designation);
    if (!read.ok) return { issues: read.issues };
    const thread = read.value;
    const bare =
      thread.form === 'unified' && !/[a-z]/i.test(designation.replace(/in(ch)?\.?|no\.?|x|tpi/gi, ''));
    return {
      results: {
        designation: thread.designation,
        major_diameter: thread.major,
        pitch: thread.pitch,
        pitch_diameter: pitchDiameter(thread),
        minor_diameter_internal: minorDiameterInternal(thread),
        minor_diameter_external: minorDiameterExternal(thread),
        stress_area: stressArea(thread),
      },
      cautions: bare
        ? [
            {
              code: 'thread/series-not-written',
              message: `Read as ${thread.designation}, a 60° thread. Some 55° Whitworth and cycle threads have the same count: make sure.`,
            },
          ]
        : [],
    };
  },
});
