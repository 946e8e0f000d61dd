import { type Assessed, type LargestDoubt, type NextMove, placeText } from '@fettle/book';
import { inUnit } from '@fettle/core';
import { joined, unitSign } from './unit.ts';

/** What to do next, in a sentence. */
export function moveWords(judgement: Assessed, next: NextMove): string {
  const { characteristic } = judgement;
  switch (next.move) {
    case 'measure': {
      const names = [...new Set(next.what.map((one) => one.characteristic.name))];
      const places = next.what.map(({ place }) => placeText(place)).filter((at) => at !== '');
      return `Measure ${names.join(', ')}${names.length === 1 && places.length > 0 ? ` at ${places.join(', ')}` : ''}.`;
    }
    case 'look':
      return `Look at it${next.wanted === '' ? '' : `; wanted: ${next.wanted}`}.`;
    case 'try-leaf':
      return `Try the leaf ${next.leaf}; at most ${next.triesLeft} ${next.triesLeft === 1 ? 'try' : 'tries'} with the leaves owned.`;
    case 'use-instrument':
      return next.characteristic.id === characteristic.id
        ? `${next.name} would decide, if it reads the same.`
        : `Read ${next.characteristic.name} with ${next.name}: that would decide, if it reads the same.`;
    case 'finer-than-owned':
      return `Nothing owned is fine enough: it has to be known to ±${significant(judgement, 2 * next.needed)} at about 95 %.${mostlyWords(next.mostly)}`;
    case 'on-the-limit':
      return 'It reads on the limit itself: no instrument settles that. Measure again, or treat it as out.';
    case 'does-not-matter':
      return `It does not matter: ${next.because.characteristic.name} ${placeText(next.because.place)} is out on the same part, which decides for both.`;
    case 'settle-disagreement':
      return `The witnesses disagree. Clean up, measure ${characteristic.name} again both ways, and strike the wrong one.`;
  }
}

/** Where most of the doubt in a figure worked out from several readings comes from. */
const mostlyWords = (mostly: LargestDoubt | undefined): string =>
  mostly === undefined
    ? ''
    : ` ${Math.round(100 * mostly.share)} % of the doubt comes from ${mostly.name}${mostly.of.length === 0 ? '' : `, with which ${mostly.of.map(({ name }) => name).join(' and ')} was read`}: read that finer first.`;

function significant({ characteristic }: Assessed, si: number): string {
  if (characteristic.kind === 'seen' || characteristic.unit === undefined)
    return String(Number(si.toPrecision(2)));
  const value = Number(inUnit(si, characteristic.unit).toPrecision(2));
  return joined(String(value), unitSign(characteristic.unit));
}
