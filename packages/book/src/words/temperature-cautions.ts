import { inUnit } from '@fettle/core';
import { degreesWords } from '../assess/at-twenty.ts';
import type { Characteristic } from '../sheet/sheet.ts';

type Said = { readonly part?: string | undefined; readonly instrument?: string | undefined };

const saidWords = ({ part, instrument }: Said): string =>
  [part && `the part at ${degreesWords(part)}`, instrument && `the instrument at ${degreesWords(instrument)}`]
    .filter(Boolean)
    .join(' and ');

/** @param shift  what would be added to it if part and instrument were of steel [m] */
export function notCorrectedWords(characteristic: Characteristic, said: Said, shift: number): string {
  const unit = characteristic.unit ?? 'mm';
  const about = Number(inUnit(Math.abs(shift), unit).toPrecision(1));
  const much =
    shift === 0 ? '' : ` Of iron or steel it would be about ${about} ${unit} ${shift > 0 ? 'more' : 'less'}.`;
  return `Read with ${saidWords(said)}, and the sheet gives no expansion for it: NOT corrected to 20 °C.${much} Let it stand until it is as warm as the room, or give its expansion on the sheet.`;
}

export function instrumentUnsaidWords(unsaid: 'part' | 'instrument', other: string): string {
  const [it, known] = unsaid === 'instrument' ? ['instrument', 'part'] : ['part', 'instrument'];
  return `Only the ${known} was said to be at ${degreesWords(other)}. The ${it} is taken as anywhere between that and 20 °C, which is in the doubt; say its temperature too and the doubt is less.`;
}
