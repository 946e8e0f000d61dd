import { standardUncertainty } from '@fettle/core';
import type { AsRead } from '../assess/as-read.ts';
import { degreesWords } from '../assess/at-twenty.ts';
import type { Judgement } from '../assess/judgement.ts';
import { operandWords, uncertaintyWords } from './quantity.ts';

const WORDS = {
  in: 'in',
  out: 'out',
  'cannot-tell': 'cannot tell',
  missing: 'not read',
  'no-limits': 'without limits',
} as const;

/** A shift below this share of the standard uncertainty moves nothing. */
const NOTHING = 0.1;

/** What the temperature of the part has to do with a verdict, in one sentence. */
export function temperatureNote(judgement: Judgement, asRead: AsRead): string {
  const { temperatures, corrected, shared, operand: before, judgement: cold } = asRead;
  const { characteristic, operand } = judgement;
  const at = temperatures.map(degreesWords).join(' and ');
  if (corrected === 'none')
    return `Read with the part at ${at}, and NOT brought to 20 °C: the sheet gives no expansion for it.`;
  const besides = corrected === 'some' ? ' Not all of it: for some the sheet gives no expansion.' : '';
  if (operand.kind !== 'value' || before.kind !== 'value')
    return `Read with the part at ${at}, brought to 20 °C.${besides}`;
  const shift = operand.q.value - before.q.value;
  if (Math.abs(shift) < NOTHING * standardUncertainty(operand.q) && judgement.status === cold.status)
    return shared
      ? `Read with the part at ${at}. The conclusion does not depend on it: what is compared was read at the same temperature on the same material, and the difference is the same at 20 °C.`
      : `Read with the part at ${at}, brought to 20 °C; that moves it by less than a tenth of its doubt.${besides}`;
  const moved = `Brought to 20 °C from readings at ${at}, ${uncertaintyWords(characteristic, Math.abs(shift))} ${shift > 0 ? 'more' : 'less'} than as read.${besides}`;
  return judgement.status === cold.status
    ? `${moved} The verdict would be the same as read.`
    : `${moved} The temperature decides: as read, ${operandWords(characteristic, before)}, it would be ${WORDS[cold.status]}; at 20 °C it is ${WORDS[judgement.status]}.`;
}
