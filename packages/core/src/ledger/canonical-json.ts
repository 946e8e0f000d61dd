/**
 * JSON in the one form of RFC 8785, so that equal values have equal text and so equal hashes.
 *
 * ECMAScript already prints numbers and strings as RFC 8785 §3.2.2 asks; what is left is to sort keys by
 * UTF-16 code units and to leave out the white space.
 *
 * @param value  anything JSON can hold; a key whose value is undefined is left out, as JSON.stringify does
 * @throws on NaN, Infinity and what is no JSON: a programmer's mistake
 * @source rfc-8785
 */
export function canonicalJson(value: unknown): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string') return JSON.stringify(value);
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new Error(`${value} has no JSON form`);
    return JSON.stringify(value);
  }
  if (Array.isArray(value)) return `[${value.map((item) => canonicalJson(item ?? null)).join(',')}]`;
  if (typeof value === 'object') {
    const fields = Object.entries(value as Record<string, unknown>)
      .filter(([, field]) => field !== undefined)
      // The default sort of strings is by UTF-16 code units, which is the order asked for.
      .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
    return `{${fields.map(([key, field]) => `${JSON.stringify(key)}:${canonicalJson(field)}`).join(',')}}`;
  }
  throw new Error(`a ${typeof value} has no JSON form`);
}
