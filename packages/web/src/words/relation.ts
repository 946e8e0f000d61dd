import type { Relation } from '@fettle/book';

/** The relation as a formula one could write beside the figure. */
export function relationWords(relation: Relation): string {
  if (typeof relation === 'string') return relation;
  if ('characteristic' in relation)
    return `${relation.characteristic}${relation.at ? `@${Object.values(relation.at).join('/')}` : ''}`;
  if ('linear' in relation) return linearWords(relation.linear);
  if ('reduce' in relation)
    return `${relation.reduce.by} over ${relation.reduce.over.join(', ')} of ${relationWords(relation.reduce.of)}`;
  if ('ratio' in relation) return `(${linearWords(relation.ratio.of)}) / (${linearWords(relation.ratio.by)})`;
  const inputs = Object.entries(relation.calculator.inputs).map(
    ([key, input]) => `${key}=${'of' in input ? relationWords(input.of) : input.is}`,
  );
  return `${relation.calculator.output} of ${relation.calculator.name}(${inputs.join(', ')})`;
}

function linearWords({
  terms,
  constant,
}: {
  terms: { factor: number; of: Relation }[];
  constant?: string | undefined;
}): string {
  const words = terms.map(({ factor, of }, i) => {
    const size = Math.abs(factor);
    const sign = factor < 0 ? '− ' : i > 0 ? '+ ' : '';
    return `${sign}${size === 1 ? '' : `${Number(size.toPrecision(4))} × `}${relationWords(of)}`;
  });
  return [...words, ...(constant === undefined ? [] : [`+ ${constant}`])].join(' ');
}
