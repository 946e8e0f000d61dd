import type { Assessed, Member, Witness } from '@fettle/book';
import { placeWords } from '../words/entry.ts';
import { bandWords, valueWords } from '../words/quantity.ts';

const verdictsOf = ({ verdicts }: Pick<Member, 'verdicts'>) => ({
  new: verdicts.new?.verdict ?? '',
  wear: verdicts.wear?.verdict ?? '',
});

function wayWords({ by, with: instrument, measurand }: Witness, own: string): string {
  if (by === 'relation') return 'worked out';
  const way = measurand === own ? '' : `, ${measurand.replaceAll('-', ' ')}`;
  return `${instrument}${way}`;
}

/** Each witness alone, and all of them together, of every place that has several. */
export function witnessLines({ characteristic, members, governing }: Assessed) {
  return members
    .filter(({ known }) => known.witnesses.length > 1)
    .map((member) => ({
      place: members.length > 1 ? placeWords(member.place, characteristic.places) : '',
      governing: governing ?? '',
      alone: member.known.witnesses.map((witness, i) => ({
        way: wayWords(witness, characteristic.measurand),
        known: valueWords(characteristic, witness.operand),
        band: bandWords(characteristic, witness.operand),
        ...verdictsOf({ verdicts: member.alone[i] ?? {} }),
      })),
      together: {
        known: valueWords(characteristic, member.known.operand),
        band: bandWords(characteristic, member.known.operand),
        ...verdictsOf(member),
      },
      agree: member.known.consistent,
      cut: member.known.cut !== undefined,
    }));
}
