import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import { type Newton, type NewtonMetre, newton, type Pascal, pascal } from '../units/si.ts';
import { threadFrom } from './designation.ts';
import { type NutFactor, nutFactor, statedNutFactor, THREAD_CONDITIONS } from './nut-factor.ts';
import { preloadByNutFactor } from './preload.ts';
import { type FastenerStrength, fastenerStrength } from './strength.ts';
import { holeStripLoad, type TappedHole, threadMismatch, threadOfHole } from './tapped-hole.ts';
import { stressArea, type Thread } from './thread.ts';

/** What is known of a fastener and the torque somebody means to give it. */
export interface TorqueCase {
  readonly torque: NewtonMetre;
  readonly designation?: string | undefined;
  readonly grade?: string | undefined;
  /** Of the thread and face, as in `THREAD_CONDITIONS`; not together with `nutFactor`. */
  readonly condition?: string | undefined;
  readonly nutFactor?: number | undefined;
  /** Where it is turned into a part rather than a nut of its own strength. */
  readonly hole?: TappedHole | undefined;
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
  /** Preload over what strips the thread of the hole, where engagement and material are known. */
  readonly stripFraction?: number;
}

interface Known {
  readonly factor: NutFactor | undefined;
  readonly thread: Thread | undefined;
  readonly strength: FastenerStrength | undefined;
  readonly holeThread: Thread | undefined;
  readonly holeStrips: Newton | undefined;
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
  const { factor, thread, strength, holeThread, holeStrips } = read.value;
  const mismatch = thread && holeThread ? threadMismatch(thread, holeThread) : undefined;
  if (mismatch !== undefined) return ok({ advice: 'refused', reasons: [mismatch] });
  const missing = [
    ...(thread ? [] : ['the thread size']),
    ...(strength || asked.grade ? [] : ['the grade']),
    ...(factor ? [] : ['the condition of the threads']),
  ];
  if (!thread || !factor) return ok({ advice: 'no-verdict', reasons: [lacking(missing)] });
  const preload = preloadByNutFactor(asked.torque, factor.nominal, thread.major);
  const stress = pascal(preload / stressArea(thread));
  const stripFraction = holeStrips === undefined ? undefined : preload / holeStrips;
  const strips = stripFraction === undefined ? undefined : strippedBy(stripFraction, factor);
  const inHole = { factor, preload, stress, ...(stripFraction !== undefined && { stripFraction }) };
  if (!strength) {
    const reasons = [...(strips ? [strips.reason] : []), lacking(missing)];
    return ok({ advice: strips?.advice ?? 'no-verdict', reasons, ...inHole });
  }
  const proofFraction = stress / strength.proof;
  const proofFractionAtLowFriction = (proofFraction * factor.nominal) / factor.low;
  const figures = { ...inHole, proofFraction, proofFractionAtLowFriction };
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
  if (strips?.advice === 'refused') return ok({ advice: 'refused', reasons: [strips.reason], ...figures });
  if (proofFractionAtLowFriction > 1) {
    return ok({
      advice: 'cautioned',
      reasons: [
        `${of} ${at(proofFraction, factor.nominal)}, but ${at(proofFractionAtLowFriction, factor.low)}, ` +
          'which these surfaces may well have. Make sure of the condition of the threads.',
        ...(strips ? [strips.reason] : []),
      ],
      ...figures,
    });
  }
  if (strips) return ok({ advice: strips.advice, reasons: [strips.reason], ...figures });
  return ok({ advice: 'advised', reasons: [`${of} ${at(proofFraction, factor.nominal)}.`], ...figures });
}

/** What the preload does to the thread of the hole; nothing when it holds even with the friction as low as it may be. */
function strippedBy(
  fraction: number,
  factor: NutFactor,
): { advice: 'cautioned' | 'refused'; reason: string } | undefined {
  const atLow = (fraction * factor.nominal) / factor.low;
  if (fraction > 1) {
    return {
      advice: 'refused',
      reason:
        `This torque pulls the screw with ${percent(fraction)} of what strips the thread of its hole at a nut factor of ` +
        `${factor.nominal.toFixed(2)}. It needs more thread in engagement, a stronger insert, or less torque.`,
    };
  }
  if (atLow <= 1) return undefined;
  return {
    advice: 'cautioned',
    reason:
      `This torque pulls the screw with ${percent(fraction)} of what strips the thread of its hole, but ` +
      `${percent(atLow)} at a nut factor of ${factor.low.toFixed(2)}, which these surfaces may well have.`,
  };
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
  const holeThread = asked.hole && threadOfHole(asked.hole);
  if (holeThread && !holeThread.ok) issues.push(...holeThread.issues);
  const holeStrips = asked.hole && thread?.ok ? holeStripLoad(thread.value, asked.hole) : undefined;
  if (holeStrips && !holeStrips.ok) issues.push(...holeStrips.issues);
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
    holeThread: holeThread?.ok ? holeThread.value : undefined,
    holeStrips: holeStrips?.ok ? holeStrips.value : undefined,
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
