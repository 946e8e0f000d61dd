import { type Answer, calculator } from '../catalogue/calculator.ts';
import { optionalChoice, optionalQuantity, optionalText, quantity, text } from '../catalogue/field.ts';
import { threadFrom } from '../fasteners/designation.ts';
import { type NutFactor, nutFactor, statedNutFactor, THREAD_CONDITIONS } from '../fasteners/nut-factor.ts';
import { preloadByFriction, preloadByNutFactor, vonMisesStress } from '../fasteners/preload.ts';
import { fastenerStrength } from '../fasteners/strength.ts';
import { stressArea } from '../fasteners/thread.ts';
import type { Caution } from '../issue.ts';
import { metre, newtonMetre } from '../units/si.ts';

export const PRELOAD = calculator({
  name: 'preload',
  sentence: 'Preload and stress that a torque gives a bolt, and how near to its proof stress that is.',
  formula: [
    'F = T/(K d), or F = T/[P/2π + μG d2/(2 cos 30°) + μK D_Km/2]',
    'σ = F/A, proof fraction = σ/proof stress',
    'σred = √(σ² + 3τ²), τ = F [P/2π + μG d2/(2 cos 30°)]/(π ds³/12)',
  ],
  sources: ['shigley-fasteners', 'vdi-2230', 'preload-scatter', 'bolt-handbook', 'torque-table-drive-parts'],
  input: {
    designation: text('Thread', '5/16-18 UNC'),
    torque: quantity('torque', 'T, at the fastener'),
    nut_factor: optionalQuantity('ratio', 'K of T = K F d', { min: 0.03, max: 1 }),
    condition: optionalChoice('Condition of the threads, for a tabulated K', THREAD_CONDITIONS),
    thread_friction: optionalQuantity('ratio', 'μG, in the thread', { above: 0, max: 1 }),
    bearing_friction: optionalQuantity('ratio', 'μK, under the face that turns', { above: 0, max: 1 }),
    bearing_diameter: optionalQuantity('length', 'D_Km, mean diameter of the face that turns'),
    grade: optionalText('Grade or property class', 'SAE 5'),
  },
  exactlyOne: [[['nut_factor'], ['condition'], ['thread_friction', 'bearing_friction', 'bearing_diameter']]],
  together: [['thread_friction', 'bearing_friction', 'bearing_diameter']],
  output: {
    preload: { kind: 'force', doc: 'F' },
    tensile_stress: { kind: 'pressure', doc: 'σ, over the stress area' },
    nut_factor: { kind: 'ratio', doc: 'K used', optional: true },
    nut_factor_low: { kind: 'ratio', doc: 'Slippery end of the band', optional: true },
    nut_factor_high: { kind: 'ratio', doc: 'Dry end of the band', optional: true },
    proof_fraction: { kind: 'ratio', doc: 'σ over the proof stress of the grade', optional: true },
    proof_fraction_at_low_friction: { kind: 'ratio', doc: 'The same at the slippery end', optional: true },
    von_mises_stress: {
      kind: 'pressure',
      doc: 'σred while tightening; needs the thread friction',
      optional: true,
    },
  },
  range:
    'elastic, room temperature, no prevailing torque; a hand torque wrench with friction assumed spreads the preload by about 30 % either way',
  example: { designation: '5/16-18 UNC', torque: '18 lbf.ft', nut_factor: 0.2, grade: 'SAE 5' },
  compute: (input): Answer => {
    const read = threadFrom(input.designation);
    if (!read.ok) return { issues: read.issues };
    const thread = read.value;
    const strength = input.grade === undefined ? undefined : fastenerStrength(input.grade, thread.major);
    if (strength && !strength.ok) return { issues: strength.issues };
    const torque = newtonMetre(input.torque);
    const { thread_friction: inThread, bearing_friction: underHead, bearing_diameter: face } = input;
    const factor = factorOf(input.nut_factor, input.condition);
    const long = inThread !== undefined && underHead !== undefined && face !== undefined;
    if (!factor && !long) {
      return {
        issues: [
          {
            code: 'preload/no-friction',
            at: 'nut_factor',
            got: 'neither',
            wanted:
              'nut_factor, condition, or the three of thread_friction, bearing_friction, bearing_diameter',
            message:
              'Preload depends on friction. Give a nut factor, a condition, or both frictions and the face.',
          },
        ],
      };
    }
    const preload = factor
      ? preloadByNutFactor(torque, factor.nominal, thread.major)
      : preloadByFriction(torque, thread, {
          thread: inThread!,
          bearing: underHead!,
          bearingDiameter: metre(face!),
        });
    const stress = preload / stressArea(thread);
    const proofFraction = strength && stress / strength.value.proof;
    const slippery = proofFraction && factor && (proofFraction * factor.nominal) / factor.low;
    const combined = factor ? undefined : vonMisesStress(preload, thread, inThread!);
    return {
      results: {
        preload,
        tensile_stress: stress,
        nut_factor: factor?.nominal,
        nut_factor_low: factor?.low,
        nut_factor_high: factor?.high,
        proof_fraction: proofFraction,
        proof_fraction_at_low_friction: slippery,
        von_mises_stress: combined,
      },
      cautions: cautionsOf(proofFraction, slippery, combined && strength && combined / strength.value.yield),
    };
  },
});

const factorOf = (stated?: number, condition?: string): NutFactor | undefined =>
  stated !== undefined ? statedNutFactor(stated) : condition === undefined ? undefined : nutFactor(condition);

function cautionsOf(proof?: number, slippery?: number, combined?: number): Caution[] {
  const percent = (fraction: number) => `${Math.round(fraction * 100)} %`;
  const cautions: Caution[] = [];
  if (proof !== undefined && proof > 1) {
    cautions.push({
      code: 'preload/past-proof',
      message: `The bolt would be pulled to ${percent(proof)} of its proof stress. Do not use this torque.`,
    });
  } else if (slippery !== undefined && slippery > 1) {
    cautions.push({
      code: 'preload/past-proof-at-low-friction',
      message: `With the friction as low as it may be the bolt reaches ${percent(slippery)} of its proof stress.`,
    });
  }
  if (combined !== undefined && combined > 0.9) {
    cautions.push({
      code: 'preload/past-yield-limit',
      message: `Stretch and twist together reach ${percent(combined)} of yield while tightening; 90 % is the usual limit.`,
    });
  }
  return cautions;
}
