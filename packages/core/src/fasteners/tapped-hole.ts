import { failed, type Outcome, ok } from '../issue.ts';
import { type Metre, type Newton, newton, type Pascal } from '../units/si.ts';
import { threadFrom } from './designation.ts';
import { internalShearArea } from './stripping.ts';
import type { Thread } from './thread.ts';
import { threadLimits } from './thread-limits.ts';

/** What a screw is turned into. */
export interface TappedHole {
  /** Thread of the hole, where it was found out on its own; the screw's when absent. */
  readonly designation?: string | undefined;
  /** Full thread in engagement [m]. */
  readonly engagement?: Metre | undefined;
  /** Tensile strength of the part that is tapped [Pa]. */
  readonly tensile?: Pascal | undefined;
}

/** Two threads as cut never agree better than this; what differs more is another thread. */
const SAME = 1e-3;

/**
 * Why a screw must not be turned into a hole: another diameter or another pitch. Nothing when they are alike.
 * Near sizes are the dangerous ones: they start by hand, then bind and spoil the hole.
 */
export function threadMismatch(screw: Thread, hole: Thread): string | undefined {
  const alike =
    Math.abs(screw.major / hole.major - 1) < SAME && Math.abs(screw.pitch / hole.pitch - 1) < SAME;
  if (alike) return undefined;
  const sizes = ({ major, pitch }: Thread) =>
    `${(major * 1000).toFixed(2)} mm with a pitch of ${(pitch * 1000).toFixed(2)} mm`;
  return (
    `The screw is ${screw.designation}, ${sizes(screw)}; the hole is ${hole.designation}, ${sizes(hole)}. ` +
    'It may start by hand, then it binds and spoils the hole: do not turn it in.'
  );
}

/**
 * Load at which the thread of the hole strips, half the tensile strength over the sheared area [N].
 * Nothing when engagement or material is not known.
 *
 * @source fed-std-h28-2
 */
export function holeStripLoad(thread: Thread, hole: TappedHole): Outcome<Newton | undefined> {
  if (hole.engagement === undefined || hole.tensile === undefined) return ok(undefined);
  const limits = threadLimits(thread);
  if (!limits.ok) return failed(...limits.issues);
  return ok(newton(0.5 * hole.tensile * internalShearArea(thread.pitch, hole.engagement, limits.value)));
}

/** The thread of the hole, where it is stated apart from the screw's. */
export const threadOfHole = (hole: TappedHole): Outcome<Thread | undefined> =>
  hole.designation === undefined ? ok(undefined) : threadFrom(hole.designation, 'hole');
