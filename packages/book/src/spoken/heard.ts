/** One thing heard: a word, a whole number that may name a place, or a number that can only be a reading. */
export type Heard =
  | { readonly is: 'word'; readonly text: string }
  | { readonly is: 'whole'; readonly text: string }
  | { readonly is: 'number'; readonly text: string; readonly unit?: string }
  /** What a leaf did, said before or behind its size. */
  | { readonly is: 'goes' | 'stops' | 'drags' };

const UNITS: Readonly<Record<string, string>> = {
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  thou: 'thou',
  thousandths: 'thou',
  mm: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  micron: 'um',
  microns: 'um',
  um: 'um',
  µm: 'um',
  psi: 'psi',
  bar: 'bar',
  lbf: 'lbf',
  newtons: 'N',
  g: 'g',
  gram: 'g',
  grams: 'g',
  deg: 'deg',
  degrees: 'deg',
  cm3: 'cm3',
  cc: 'cm3',
};

const SMALL =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  );
const TENS: Readonly<Record<string, number>> = {
  twenty: 20,
  thirty: 30,
  forty: 40,
  fifty: 50,
  sixty: 60,
  seventy: 70,
  eighty: 80,
  ninety: 90,
};
const ORDINALS = 'first second third fourth fifth sixth seventh eighth ninth tenth'.split(' ');

/** The whole number a word stands for: `two`, `ninety`, `second`, `oh`. */
function wholeOf(word: string): number | undefined {
  if (/^\d+$/.test(word)) return Number(word);
  if (word === 'oh' || word === 'nought' || word === 'naught') return 0;
  const small = SMALL.indexOf(word);
  if (small >= 0) return small;
  const ordinal = ORDINALS.indexOf(word.replace(/s$/, ''));
  return ordinal >= 0 ? ordinal + 1 : TENS[word];
}

const isDigits = (word: string | undefined): word is string =>
  word !== undefined && (/^\d+$/.test(word) || (wholeOf(word) ?? 10) < 10);

/**
 * What was said, one thing after the other. "two point one two two eight" is 2.1228; a whole number with a unit behind
 * it is a reading; without one it may name a place.
 */
export function heard(text: string): Heard[] {
  const words = text
    .toLowerCase()
    // A point or a comma that ends a phrase is no part of a number.
    .replace(/[,:]+(?=\s|$)/g, ' ')
    .replace(/\.(?=\s|$)/g, ' ')
    .replace(/([\d"a-zµ])\s*\+\s*(?=[\d.a-z])/g, '$1 + ')
    .replace(/(\d)(?=(in|mm|thou|psi|bar|lbf|deg|um|g)\b)/g, '$1 ')
    .split(/\s+/)
    .filter((word) => word !== '');
  const all: Heard[] = [];
  for (let i = 0; i < words.length; i++) {
    const word = words[i]!;
    const decimal = spelt(words, i);
    if (decimal) {
      all.push(withUnit(decimal.text, words[decimal.next]));
      i = decimal.next - (UNITS[words[decimal.next] ?? ''] === undefined ? 1 : 0);
      continue;
    }
    if (word === 'goes' || word === 'go') all.push({ is: 'goes' });
    else if (word === 'drags' || word === 'drag') all.push({ is: 'drags' });
    else if (word === 'stops' || word === 'stop') all.push({ is: 'stops' });
    else if (word === 'does' && words[i + 1] === 'not') {
      all.push({ is: 'stops' });
      i += words[i + 2] === 'go' ? 2 : 1;
    } else if (wholeOf(word) !== undefined) {
      const unit = UNITS[words[i + 1] ?? ''];
      if (unit !== undefined) {
        all.push({ is: 'number', text: String(wholeOf(word)), unit });
        i += 1;
      } else all.push({ is: 'whole', text: String(wholeOf(word)) });
    } else all.push({ is: 'word', text: word });
  }
  return laidTogether(all);
}

type Size = Heard & { readonly is: 'number' | 'whole' };
const isSize = (one: Heard | undefined): one is Size => one?.is === 'number' || one?.is === 'whole';
const isWord = (one: Heard | undefined, ...texts: readonly string[]): boolean =>
  one?.is === 'word' && texts.includes(one.text);

/**
 * Leaves laid on one another are one size: "ten and twelve thou together", "10 + 12 thou". An "and" alone joins
 * nothing: it may stand between two readings.
 */
function laidTogether(all: readonly Heard[]): Heard[] {
  const made: Heard[] = [];
  for (let i = 0; i < all.length; i++) {
    const run: Size[] = [];
    let added = false;
    let end = i;
    for (let at = i; isSize(all[at]); at += 2) {
      run.push(all[at] as Size);
      end = at + 1;
      if (isWord(all[at + 1], 'plus', '+')) added = true;
      else if (!isWord(all[at + 1], 'and')) break;
    }
    const together = isWord(all[end], 'together', 'stacked');
    const units = run.flatMap((one) => (one.is === 'number' && one.unit !== undefined ? [one.unit] : []));
    const unit = units.at(-1);
    // Whole numbers that no unit is said for name places.
    const isStack =
      run.length > 1 && (added || together) && (unit !== undefined || run.some(({ is }) => is === 'number'));
    if (!isStack) {
      made.push(all[i]!);
      continue;
    }
    const text = run
      .map((one) =>
        one.is === 'number' && one.unit !== undefined && one.unit !== unit
          ? `${one.text} ${one.unit}`
          : one.text,
      )
      .join(' + ');
    made.push({ is: 'number', text, ...(unit !== undefined && { unit }) });
    i = together ? end : end - 1;
  }
  return made;
}

const withUnit = (text: string, next: string | undefined): Heard => {
  const unit = UNITS[next ?? ''];
  return { is: 'number', text, ...(unit !== undefined && { unit }) };
};

/** A decimal at this word: as digits, or spelt with "point". @returns where the words go on */
function spelt(words: readonly string[], at: number): { text: string; next: number } | undefined {
  const word = words[at]!;
  if (/^[-+]?\d*\.\d+$/.test(word)) return { text: word, next: at + 1 };
  const before = word === 'point' ? '' : words[at + 1] === 'point' ? wholeOf(word) : undefined;
  if (before === undefined) return undefined;
  let next = word === 'point' ? at + 1 : at + 2;
  let digits = '';
  while (isDigits(words[next])) {
    digits += /^\d+$/.test(words[next]!) ? words[next] : String(wholeOf(words[next]!));
    next += 1;
  }
  return digits === '' ? undefined : { text: `${before === '' ? '0' : before}.${digits}`, next };
}
