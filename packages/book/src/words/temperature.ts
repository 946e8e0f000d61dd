import { inUnit, parseQuantity, standardUncertainty } from '@fettle/core';
import type { AsRead } from '../assess/as-read.ts';
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

/** `6 °C`, as far as it reads. */
const degrees = (said: string): string => {
  const read = parseQuantity(said, 'temperature');
  return read.ok ? `${Number(inUnit(read.value.value, 'degC').toFixed(1))} °C` : said;
};

/** What the temperature of the part has to do with a verdict, in one sentence. */
export function temperatureNote(judgement: Judgement, { temperatures, judgement: cold }: AsRead): string {
  const { characteristic, operand } = judgement;
  const at = temperatures.map(degrees).join(' and ');
  if (operand.kind !== 'value' || cold.operand.kind !== 'value')
    return `Read with the part at ${at}, brought to 20 °C.`;
  const shift = operand.q.value - cold.operand.q.value;
  if (Math.abs(shift) < NOTHING * standardUncertainty(operand.q))
    return `Read with the part at ${at}. The conclusion does not depend on it: what is compared was read at the same temperature, and the difference is the same at 20 °C.`;
  const moved = `Brought to 20 °C from readings at ${at}, ${uncertaintyWords(characteristic, Math.abs(shift))} ${shift > 0 ? 'more' : 'less'} than as read.`;
  return judgement.status === cold.status
    ? `${moved} The verdict would be the same as read.`
    : `${moved} The temperature decides: as read, ${operandWords(characteristic, cold.operand)}, it would be ${WORDS[cold.status]}; at 20 °C it is ${WORDS[judgement.status]}.`;
}
