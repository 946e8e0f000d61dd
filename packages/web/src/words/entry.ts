import { type Book, bodyOf, type Entry, isKnown, leavesWords } from '@fettle/book';
import { nameIn, positionName } from './issue.ts';
import { placeWords } from './place.ts';

const short = (text: string): string => (text.length > 90 ? `${text.slice(0, 87)}…` : text);

/** What the sheet calls a thing; else the words its id is made of. */
const nameOf = (named: readonly { id: string; name: string }[] | undefined, id: string): string =>
  named?.find((one) => one.id === id)?.name ?? id.replaceAll('-', ' ');

/** What an entry says, in one line. */
export function entryWords(book: Book, entry: Entry): string {
  if (!isKnown(entry)) return `of a kind this program does not know: ${entry.kind}. It is kept.`;
  const at = (id: string, place: Readonly<Record<string, string>> | undefined): string => {
    const characteristic = book.characteristics.get(id);
    const where = characteristic ? placeWords(characteristic, place ?? {}) : '';
    return `${nameIn(book, id)}${where === '' ? '' : `, ${where}`}`;
  };
  switch (entry.kind) {
    case 'reading': {
      const body = bodyOf(entry as Entry & { kind: 'reading' });
      return `${at(body.characteristic, body.place)}: ${body.value ?? leavesWords.leafAnswerWords(body)}`;
    }
    case 'seen': {
      const body = bodyOf(entry as Entry & { kind: 'seen' });
      return `${at(body.characteristic, body.place)}: ${short(body.found)}`;
    }
    case 'strike': {
      const body = bodyOf(entry as Entry & { kind: 'strike' });
      const target = book.entries.find(({ id }) => id === body.entry);
      return `Struck: ${target ? entryWords(book, target) : body.entry}. ${short(body.why)}`;
    }
    case 'part-entered': {
      const body = bodyOf(entry as Entry & { kind: 'part-entered' });
      return `Part: ${body.name}, ${body.condition}`;
    }
    case 'part-fitted': {
      const body = bodyOf(entry as Entry & { kind: 'part-fitted' });
      const where = positionName(book, body.position);
      return body.part === null
        ? `${where}: taken out`
        : `${book.parts.get(body.part)?.name ?? body.part} in: ${where}`;
    }
    case 'part-reworked': {
      const body = bodyOf(entry as Entry & { kind: 'part-reworked' });
      return `${book.parts.get(body.part)?.name ?? body.part}: ${short(body.what)}`;
    }
    case 'torque-pass': {
      const body = bodyOf(entry as Entry & { kind: 'torque-pass' });
      const name = nameOf(book.sheet?.fasteners, body.fastener);
      const where = body.place ? ` ${Object.values(body.place).join(' ')}` : '';
      return `${name}${where}: ${body.torque}, pass ${body.pass} of ${body.of}`;
    }
    case 'torque-decided': {
      const { passes, why } = bodyOf(entry as Entry & { kind: 'torque-decided' });
      const pass = book.torquePasses.find(({ entry: { id } }) => id === passes[0]);
      return `${pass ? entryWords(book, pass.entry) : 'A torque'}: stands. ${short(why)}`;
    }
    case 'gauge-reading': {
      const body = bodyOf(entry as Entry & { kind: 'gauge-reading' });
      return `Gauge: ${body.pressure} at ${body.speed}${body.temperature ? `, ${body.temperature}` : ''}`;
    }
    case 'instrument-declared':
      return `Instrument: ${bodyOf(entry as Entry & { kind: 'instrument-declared' }).name}`;
    case 'characteristic-amended': {
      const body = bodyOf(entry as Entry & { kind: 'characteristic-amended' });
      return `Sheet amended: ${nameIn(book, body.characteristic)}. ${short(body.why)}`;
    }
    case 'cover-closed':
    case 'cover-opened':
    case 'hold-passed': {
      const { cover, why } = entry.body as { cover: string; why?: string };
      const name = nameOf(book.sheet?.covers, cover);
      const what = { 'cover-closed': 'closed', 'cover-opened': 'opened', 'hold-passed': 'hold passed' }[
        entry.kind
      ];
      return `${name}: ${what}${why ? `. ${short(why)}` : ''}`;
    }
    case 'part-marked':
    case 'part-cleaned': {
      const { part } = entry.body as { part: string };
      return `${book.parts.get(part)?.name ?? part}: ${entry.kind === 'part-marked' ? 'marked' : 'cleaned'}`;
    }
    case 'opening-blocked':
    case 'opening-cleared': {
      const { opening, name, by, count } = entry.body as {
        opening: string;
        name?: string;
        by: string;
        count?: number;
      };
      const called = name ?? nameOf(book.sheet?.openings, opening);
      return `${called}: ${count ?? 1} × ${by} ${entry.kind === 'opening-blocked' ? 'in' : 'out'}`;
    }
    case 'joint-state': {
      const { joint, name, state } = entry.body as { joint: string; name?: string; state: string };
      return `${name ?? nameOf(book.sheet?.fasteners, joint)}: ${state}`;
    }
    case 'disposition': {
      const body = bodyOf(entry as Entry & { kind: 'disposition' });
      return `${book.parts.get(body.part)?.name ?? body.part}: ${body.decision}. ${short(body.why)}`;
    }
    case 'note':
      return short(bodyOf(entry as Entry & { kind: 'note' }).text);
    case 'job-opened':
      return `Job opened: ${bodyOf(entry as Entry & { kind: 'job-opened' }).title}`;
    case 'spec-adopted':
      return `Spec sheet: ${bodyOf(entry as Entry & { kind: 'spec-adopted' }).title}`;
    case 'repair-offered': {
      const { name, price } = bodyOf(entry as Entry & { kind: 'repair-offered' });
      return `On offer: ${name}, ${price}`;
    }
    case 'supply-offered':
    case 'supply-wanted':
    case 'task-planned': {
      const word = { 'supply-offered': 'Can be bought', 'supply-wanted': 'Wanted', 'task-planned': 'Task' };
      return `${word[entry.kind]}: ${(entry.body as { name: string }).name}`;
    }
    case 'order':
      return `Ordered: ${bodyOf(entry as Entry & { kind: 'order' }).item}`;
    case 'receipt': {
      const { order } = bodyOf(entry as Entry & { kind: 'receipt' });
      const item = book.orders.find((one) => one.entry.id === order)?.body.item;
      return `Arrived: ${item ?? 'what was ordered'}`;
    }
    case 'instrument-checked': {
      const body = bodyOf(entry as Entry & { kind: 'instrument-checked' });
      const name = book.instruments.get(body.instrument)?.body.name ?? body.instrument;
      return `${name} held against ${body.against}: ${body.read}, ${body.good ? 'good' : 'not good'}`;
    }
    case 'repeat-study': {
      const body = bodyOf(entry as Entry & { kind: 'repeat-study' });
      const name = book.instruments.get(body.instrument)?.body.name ?? body.instrument;
      return `${name}, ${body.readings.length} repeated readings: ${short(body.what)}`;
    }
    case 'readings-corrected': {
      const { add, why } = bodyOf(entry as Entry & { kind: 'readings-corrected' });
      return `Readings corrected by ${add}. ${short(why)}`;
    }
    case 'photo': {
      const { about, caption } = bodyOf(entry as Entry & { kind: 'photo' });
      return `Photo${about ? ` of ${nameIn(book, about)}` : ''}${caption ? `: ${short(caption)}` : ''}`;
    }
    default:
      return (entry as Entry).kind.replaceAll('-', ' ');
  }
}

export const whenWords = (at: string): string => at.slice(0, 16).replace('T', ' ');
