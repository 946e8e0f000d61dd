/**
 * The RFC 8785 text of a JSON value: the form in which entries and sheets are kept and leave in an archive,
 * so that what comes back has the same bytes. A test holds it to the hash that book gives the same value.
 */
export function canonicalText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((item) => canonicalText(item ?? null)).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  // Sorted by UTF-16 code units, which is what the comparison of strings does.
  const fields = Object.entries(value)
    .filter(([, field]) => field !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${fields.map(([key, field]) => `${JSON.stringify(key)}:${canonicalText(field)}`).join(',')}}`;
}
