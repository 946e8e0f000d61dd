import { degreesWords } from '../assess/at-twenty.ts';
import { EXPANSION_DOUBT } from '../assess/expansion.ts';
import type { Book } from '../fold/book.ts';

/**
 * A cause of doubt that has to do with temperature, in the words of the bench; undefined for any other.
 *
 * @param source  of a term, such as `temperature:part:the block:6degC`
 */
export function temperatureCauseWords(book: Book, source: string): string | undefined {
  const [kind, first = '', ...rest] = source.split(':');
  if (kind === 'thermometer') return 'the thermometer, none being declared, common to all its readings';
  if (kind === 'expansion') return expansionWords(book, [first, ...rest].join(':'));
  const thing = first === 'part' ? 'part' : 'instrument';
  const said = degreesWords(rest.at(-1) ?? '');
  if (kind === 'temperature') return `the reading of the ${thing}’s temperature, ${said}`;
  if (kind === 'temperature-unsaid')
    return `the ${thing}’s temperature, not said: anywhere between ${said} and 20 °C`;
  return undefined;
}

function expansionWords(book: Book, of: string): string {
  const share = (doubt: string): string => `assumed known to ${doubt}`;
  const usual = share(`${100 * EXPANSION_DOUBT} %`);
  if (of === 'instruments') return `the expansion of the instruments, taken as steel’s, ${usual}`;
  const material = book.sheet?.materials?.[of];
  if (material)
    return `the expansion of ${material.name.toLowerCase()}, ${material.doubt ? share(material.doubt) : usual}`;
  return `the expansion of ${book.characteristics.get(of)?.name ?? of}, ${usual}`;
}
