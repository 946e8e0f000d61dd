import type { Outcome, TorqueAdvice } from '@fettle/core';
import { adviceIn } from '../assess/torque-case.ts';
import type { JointProof, TorqueDoubt } from '../assess/torque-standing.ts';
import type { Book } from '../fold/book.ts';
import type { Undoing } from '../fold/undoing.ts';
import { placeText, positionsOf } from '../sheet/places.ts';
import type { Fastener } from '../sheet/sheet.ts';

type OtherCondition = Extract<TorqueDoubt, { why: 'other-condition' }>;

/** That threads were not as the sheet has them, and what the preload is with these. */
export function otherConditionWords(
  { said, sheet }: Pick<OtherCondition, 'said' | 'sheet'>,
  advice: Outcome<TorqueAdvice>,
): string {
  const figures = advice.ok
    ? advice.value.reasons.join(' ')
    : 'What it pulls with such threads cannot be worked out.';
  return `tightened with the threads ${said}, while the sheet has them ${sheet}. ${figures}`;
}

const positionName = (book: Book, id: string): string =>
  (book.sheet ? positionsOf(book.sheet) : []).find((one) => one.id === id)?.name ?? id;

const partName = (book: Book, part: string | undefined): string =>
  part === undefined ? 'a part' : (book.parts.get(part)?.name ?? part);

function undoneWords(book: Book, by: Undoing): string {
  switch (by.what) {
    case 'loosened':
      return `left ${by.state} since its torque was logged. Tighten it again`;
    case 'opened': {
      const cover = book.sheet?.covers.find(({ id }) => id === by.cover)?.name ?? by.cover;
      return `${cover} was opened since its torque was logged, and it may have been touched. Tighten it again, or decide that it stands, and why`;
    }
    case 'refitted':
      return `${by.positions.map((id) => positionName(book, id)).join(', ')}: ${by.part === undefined ? 'taken out' : `${partName(book, by.part)} fitted`} since its torque was logged. Tighten it again`;
    case 'reworked':
      return `${partName(book, by.part)} was reworked since its torque was logged. Tighten it again`;
  }
}

function doubtWords(book: Book, fastener: Fastener, { pass }: JointProof, doubt: TorqueDoubt): string {
  switch (doubt.why) {
    case 'other-condition':
      return `${otherConditionWords(doubt, adviceIn(fastener, pass!.body.torque, doubt.said))} Tighten it as the sheet has it, or decide that it stands, and why`;
    case 'to-be-taken-again':
      return 'tightened with a wrench whose check failed. Tighten it again with one that is right';
    case 'other-torque':
      return `tightened since to ${doubt.pass.body.torque}, which is not what the sheet asks for. Tighten it again`;
    case 'undone':
      return undoneWords(book, doubt.by);
  }
}

/** Why logged torques do not prove their joint, a sentence for each kind of reason, with the places it is said of. */
export function torqueDoubtWords(
  book: Book,
  { fastener, proofs }: { readonly fastener: Fastener; readonly proofs: readonly JointProof[] },
): Map<TorqueDoubt['why'], string> {
  const places = new Map<TorqueDoubt['why'], Map<string, string[]>>();
  for (const proof of proofs) {
    if (!proof.doubt) continue;
    const said = places.get(proof.doubt.why) ?? new Map<string, string[]>();
    const words = doubtWords(book, fastener, proof, proof.doubt);
    said.set(words, [...(said.get(words) ?? []), placeText(proof.place)]);
    places.set(proof.doubt.why, said);
  }
  return new Map(
    [...places].map(([why, said]) => [
      why,
      [...said]
        .map(([words, at]) => {
          const where = at.length === proofs.length ? '' : ` ${at.join(', ')}`;
          return `${fastener.name}${where}: ${words}`;
        })
        .join('. '),
    ]),
  );
}
