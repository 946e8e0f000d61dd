import type { Assessed, Characteristic, LimitSetName, Operand, Verdict } from '@fettle/book';
import { limitsOf } from '@fettle/book';
import { inUnit } from '@fettle/core';
import { type LimitRail, limitRailSvg, type Picture, type RailBlock, type RailSet } from '@fettle/draw';
import { useCallback } from 'preact/hooks';
import { unitOf } from '../state/units.ts';
import { STATUS_WORDS } from '../words/judgement.ts';
import { bare, halfBand, limitWords, operandWords } from '../words/quantity.ts';
import { Drawing } from './drawing.tsx';

const SETS: readonly { readonly set: LimitSetName; readonly name: string }[] = [
  { set: 'new', name: 'new' },
  { set: 'wear', name: 'wear' },
];

function blockOf(characteristic: Characteristic, operand: Operand, name?: string): RailBlock | undefined {
  if (operand.kind === 'missing') return undefined;
  const unit = unitOf(characteristic);
  const at = (si: number | undefined): number | undefined =>
    si === undefined ? undefined : unit === undefined ? si : inUnit(si, unit);
  const text = operandWords(characteristic, operand);
  const named = name === undefined ? {} : { name };
  if (operand.kind === 'interval')
    return { ...named, from: at(operand.lower?.value), to: at(operand.upper?.value), text };
  const { value } = operand.q;
  const U = halfBand(operand.q);
  return { ...named, from: at(value - U), to: at(value + U), best: at(value), text };
}

function setsOf(characteristic: Characteristic, size: string | undefined): RailSet[] {
  const unit = unitOf(characteristic);
  return SETS.flatMap(({ set, name }) => {
    const limits = limitsOf(characteristic, set, size);
    if (!limits) return [];
    const post = (si: number | undefined) =>
      si === undefined
        ? undefined
        : { at: unit === undefined ? si : inUnit(si, unit), text: bare(characteristic, si) };
    return [{ set, name, lower: post(limits.lower), upper: post(limits.upper), target: post(limits.target) }];
  });
}

interface Shown {
  readonly judgement: Assessed;
  readonly operand: Operand;
  readonly witnesses?: readonly { readonly name: string; readonly operand: Operand }[];
  readonly verdict?: Verdict | undefined;
}

/** The limits as posts and the reading as a block as wide as its doubt. */
export function Rail({ judgement, operand, witnesses = [], verdict }: Shown) {
  const { characteristic, states } = judgement;
  const draw = useCallback(
    (picture: Picture): string => {
      const rail: LimitRail = {
        sets: setsOf(characteristic, states.find(({ size }) => size !== undefined)?.size),
        reading: blockOf(characteristic, operand),
        witnesses: witnesses.flatMap((one) => blockOf(characteristic, one.operand, one.name) ?? []),
      };
      return limitRailSvg(rail, picture);
    },
    [characteristic, states, operand, witnesses],
  );
  if (!characteristic.limits) return null;
  const known = operandWords(characteristic, operand);
  const says = verdict
    ? `${known}, against ${limitWords(characteristic, verdict.limits)}: ${STATUS_WORDS[verdict.verdict]}.`
    : known;
  return <Drawing title={`Limits of ${characteristic.name}`} desc={says} draw={draw} widest={900} />;
}
