import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import { type Newton, type NewtonMetre, newton, type Pascal, pascal } from '../units/si.ts';
import { threadFrom } from './designation.ts';
import { type NutFactor, nutFactor, statedNutFactor, THREAD_CONDITIONS } from './nut-factor.ts';
import { preloadByNutFactor } from './preload.ts';
import { type FastenerStrength, fastenerStrength } from './strength.ts';
import { stressArea, type Thread } from './thread.ts';

/** What is known of a fastener and the torque somebody means to give it. */
export interface TorqueCase {
  readonly torque: NewtonMetre;
  readonly designation?: string | undefined;
  readonly grade?: string | undefined;
  /** Of the thread and face, as in `THREAD_CONDITIONS`; not together with `nutFactor`. */
  readonly condition?: string | undefined;
  readonly nutFactor?: number | undefined;
}

export interface TorqueAdvice {
  /** `refused` past proof load at the stated nut factor, `cautioned` past it at the low end of the friction band. */
  readonly advice: 'advised' | 'cautioned' | 'refused' | 'no-verdict';
  /** Plain sentences, with the figures. */
  readonly reasons: readonly string[];
  readonly factor?: NutFactor;
  readonly preload?: Newton;
  readonly stress?: Pascal;
  readonly proofFraction?: number;
  readonly proofFractionAtLowFriction?: number;
}

interface Known {
  readonly factor: NutFactor | undefined;
  readonly thread: Thread | undefined;
  readonly strength: FastenerStrength | undefined;
}

/**
 * Whether a torque may be given as advice. It is refused when F = T/(K d) exceeds the proof load, printed in a manual
 * or not, and cautioned when it does so with the friction as low as it may well be.
 *
 * @source shigley-fasteners for the short form; preload-scatter for the band
 */
export function torqueAdvice(asked: TorqueCase): Outcome<TorqueAdvice> {
  const read = known(asked);
  if (!read.ok) return read;
  const { factor, thread, strength } = read.value;
  const missing = [
    ...(thread ? [] : ['the thread size']),
    ...(strength || asked.grade ? [] : ['the grade']),
    ...(factor ? [] : ['the condition of the threads']),
  ];
  if (!thread || !factor) return ok({ advice: 'no-verdict', reasons: [lacking(missing)] });
  const preload = preloadByNutFactor(asked.torque, factor.nominal, thread.major);
  const stress = pascal(preload / stressArea(thread));
  if (!strength) return ok({ advice: 'no-verdict', reasons: [lacking(missing)], factor, preload, stress });
  const proofFraction = stress / strength.proof;
  const proofFractionAtLowFriction = (proofFraction * factor.nominal) / factor.low;
  const figures = { factor, preload, stress, proofFraction, proofFractionAtLowFriction };
  const at = (fraction: number, k: number) =>
    `${percent(fraction)} of proof at a nut factor of ${k.toFixed(2)}`;
  const of = `On ${thread.designation} ${strength.grade} this torque gives`;
  if (proofFraction > 1) {
    return ok({
      advice: 'refused',
      reasons: [
        `${of} ${at(proofFraction, factor.nominal)}: past proof load, even if it is printed. ` +
          'Check size, grade, unit and page before using it.',
      ],
      ...figures,
    });
  }
  if (proofFractionAtLowFriction > 1) {
    return ok({
      advice: 'cautioned',
      reasons: [
        `${of} ${at(proofFraction, factor.nominal)}, but ${at(proofFractionAtLowFriction, factor.low)}, ` +
          'which these surfaces may well have. Make sure of the condition of the threads.',
      ],
      ...figures,
    });
  }
  return ok({ advice: 'advised', reasons: [`${of} ${at(proofFraction, factor.nominal)}.`], ...figures });
}

/**
 * The question to ask before such a torque is kept: its preload at the stated nut factor is more than twice what
 * breaks the bolt, so the unit or the figure has probably slipped. Nothing to ask when too little is known.
 */
export function torqueQuestion(asked: TorqueCase, at = 'torque'): Issue | undefined {
  const read = known(asked);
  if (!read.ok) return undefined;
  const { factor, thread, strength } = read.value;
  if (!factor || !thread || !strength) return undefined;
  const preload = preloadByNutFactor(asked.torque, factor.nominal, thread.major);
  const breaking = newton(stressArea(thread) * strength.tensile);
  if (preload <= 2 * breaking) return undefined;
  const most = (asked.torque * 2 * breaking) / preload;
  return {
    code: 'torque/implausible',
    at,
    got: `${asked.torque.toPrecision(3)} N·m (${(asked.torque / 1.3558179).toPrecision(3)} lbf·ft)`,
    wanted: `no more than ${most.toPrecision(3)} N·m on ${thread.designation} ${strength.grade}`,
    message:
      `This torque would pull ${thread.designation} ${strength.grade} with ${(preload / breaking).toFixed(1)} times ` +
      'what breaks it. Is the unit right (N·m, lbf·ft, lbf·in)? Confirm it or correct it.',
  };
}

function known(asked: TorqueCase): Outcome<Known> {
  const issues: Issue[] = [];
  const factor = factorOf(asked);
  if (!factor.ok) issues.push(...factor.issues);
  const thread = asked.designation === undefined ? undefined : threadFrom(asked.designation);
  if (thread && !thread.ok) issues.push(...thread.issues);
  const strength =
    thread?.ok && asked.grade !== undefined ? fastenerStrength(asked.grade, thread.value.major) : undefined;
  if (strength && !strength.ok) issues.push(...strength.issues);
  if (!(asked.torque > 0 && Number.isFinite(asked.torque))) {
    issues.push({
      code: 'torque/not-positive',
      at: 'torque',
      got: String(asked.torque),
      wanted: 'a torque over 0',
      message: 'Give the torque as a positive number with its unit.',
    });
  }
  if (issues.length > 0) return failed(...issues);
  return ok({
    factor: factor.ok ? factor.value : undefined,
    thread: thread?.ok ? thread.value : undefined,
    strength: strength?.ok ? strength.value : undefined,
  });
}

function factorOf({ condition, nutFactor: stated }: TorqueCase): Outcome<NutFactor | undefined> {
  const bad = (at: string, got: string, wanted: string, message: string) =>
    failed({ code: 'torque/nut-factor', at, got, wanted, message });
  if (condition !== undefined && stated !== undefined) {
    return bad(
      'nut_factor',
      'both',
      'condition or nut factor',
      'Give the condition or the nut factor, not both.',
    );
  }
  if (stated !== undefined) {
    const sane = stated >= 0.03 && stated <= 1;
    if (sane) return ok(statedNutFactor(stated));
    return bad(
      'nut_factor',
      String(stated),
      'from 0.03 to 1',
      'A nut factor is about 0.1 to 0.3. Correct it.',
    );
  }
  if (condition === undefined) return ok(undefined);
  const found = nutFactor(condition);
  if (found) return ok(found);
  const listed = THREAD_CONDITIONS.join(', ');
  return bad(
    'condition',
    condition,
    listed,
    `Take one of these conditions, or give the nut factor: ${listed}.`,
  );
}

const lacking = (missing: readonly string[]) =>
  `Without ${missing.join(' and ')} nothing can be said of this torque.`;

const percent = (fraction: number) => `${Math.round(fraction * 100)} %`;
