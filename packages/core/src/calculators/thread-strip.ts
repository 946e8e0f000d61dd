import { calculator } from '../catalogue/calculator.ts';
import { quantity, text } from '../catalogue/field.ts';
import { threadFrom } from '../fasteners/designation.ts';
import {
  equalStrengthEngagement,
  externalShearArea,
  internalShearArea,
  stripRatio,
} from '../fasteners/stripping.ts';
import { stressArea } from '../fasteners/thread.ts';
import { threadLimits } from '../fasteners/thread-limits.ts';
import { metre, pascal } from '../units/si.ts';

export const THREAD_STRIP = calculator({
  name: 'thread-strip',
  sentence: 'Loads at which a bolt breaks and at which its threads or those of the hole strip.',
  formula: [
    'A_s = π n L Kn,max [1/(2n) + 0.57735 (Es,min − Kn,max)]',
    'A_n = π n L Ds,min [1/(2n) + 0.57735 (Ds,min − En,max)]',
    'load = ½ tensile × area; needed L = 2 A/(A_s/L) × max(1, J), J = A_s S_ext/(A_n S_int)',
  ],
  sources: ['fed-std-h28-2', 'asme-b1-1', 'iso-965-1'],
  input: {
    designation: text('Thread', '5/16-18 UNC'),
    engagement_length: quantity('length', 'L, full thread in the hole'),
    bolt_tensile: quantity('pressure', 'Tensile strength of the bolt'),
    nut_tensile: quantity('pressure', 'Tensile strength of the nut or tapped part'),
  },
  output: {
    bolt_thread_load: { kind: 'force', doc: 'Strips the thread of the bolt' },
    nut_thread_load: { kind: 'force', doc: 'Strips the thread of the hole' },
    bolt_load: { kind: 'force', doc: 'Breaks the bolt' },
    needed_engagement: { kind: 'length', doc: 'Engagement at which the bolt breaks first' },
    strength_ratio: { kind: 'ratio', doc: 'J; over 1 the hole is the weaker' },
    limits: { kind: 'value', doc: 'Classes whose limits of size were used' },
  },
  range:
    'classes 2A with 2B, or 6g with 6H over 2.8 up to 45 mm; shear strength half of tensile; past about 1.5 to 2 diameters more engagement adds little',
  example: {
    designation: 'M8x1.25',
    engagement_length: '8 mm',
    bolt_tensile: '800 MPa',
    nut_tensile: '250 MPa',
  },
  compute: (input) => {
    const read = threadFrom(input.designation);
    if (!read.ok) return { issues: read.issues };
    const thread = read.value;
    const limits = threadLimits(thread);
    if (!limits.ok) return { issues: limits.issues };
    const { pitch } = thread;
    const length = metre(input.engagement_length);
    const ratio = stripRatio(pitch, limits.value, pascal(input.bolt_tensile), pascal(input.nut_tensile));
    const long = length > 2 * thread.major;
    return {
      results: {
        bolt_thread_load: 0.5 * input.bolt_tensile * externalShearArea(pitch, length, limits.value),
        nut_thread_load: 0.5 * input.nut_tensile * internalShearArea(pitch, length, limits.value),
        bolt_load: input.bolt_tensile * stressArea(thread),
        needed_engagement:
          equalStrengthEngagement(stressArea(thread), pitch, limits.value) * Math.max(1, ratio),
        strength_ratio: ratio,
        limits: limits.value.fit,
      },
      cautions: long
        ? [
            {
              code: 'thread-strip/long-engagement',
              message:
                'Past about two diameters the first threads carry most of the load; the figure counts all alike.',
            },
          ]
        : [],
    };
  },
});
