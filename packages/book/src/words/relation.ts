import type { Relation } from '../sheet/relation.ts';

/**
 * The relation as a formula one could write beside the figure.
 *
 * @param named  what a characteristic is called there: its id where one looks it up, its name where one reads
 */
export function relationWords(relation: Relation, named: (id: string) => string = (id) => id): string {
  const words = (node: Relation): string => {
    if (typeof node === 'string') return named(node);
    if ('characteristic' in node)
      return `${named(node.characteristic)}${node.at ? ` at ${Object.values(node.at).join('/')}` : ''}`;
    if ('linear' in node) return sum(node.linear);
    if ('reduce' in node)
      return `${node.reduce.by.replace('-', ' ')} over ${node.reduce.over.join(', ')} of ${words(node.reduce.of)}`;
    if ('ratio' in node) return `(${sum(node.ratio.of)}) / (${sum(node.ratio.by)})`;
    const inputs = Object.entries(node.calculator.inputs).map(
      ([key, input]) =>
        `${key.replaceAll('_', ' ')} = ${'is' in input ? input.is : `${words(input.of)}${input.over === undefined ? '' : ` at every ${input.over}`}`}`,
    );
    return `${node.calculator.output.replaceAll('_', ' ')} by the calculator ${node.calculator.name} (${inputs.join(', ')})`;
  };
  const sum = (linear: {
    terms: { factor: number; of: Relation }[];
    constant?: string | undefined;
  }): string =>
    [
      ...linear.terms.map(({ factor, of }, i) => {
        const size = Math.abs(factor);
        const sign = factor < 0 ? '− ' : i > 0 ? '+ ' : '';
        const inner = words(of);
        const grouped = size !== 1 && /[ ][+−] /.test(inner) ? `(${inner})` : inner;
        return `${sign}${size === 1 ? '' : `${Number(size.toPrecision(4))} × `}${grouped}`;
      }),
      ...(linear.constant === undefined ? [] : [constantWords(linear.constant)]),
    ].join(' ');
  return words(relation);
}

/** A constant with its sign as an operation: `− 3.5000 in`. */
const constantWords = (text: string): string =>
  /^\s*[-−]/.test(text) ? `− ${text.trim().slice(1)}` : `+ ${text}`;
