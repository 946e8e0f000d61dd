/** Whether an id is meant by a pattern of a cover: the id itself, or `crank.*` for all that begin so. */
export const isMeantBy = (pattern: string, id: string): boolean =>
  pattern.endsWith('*') ? id.startsWith(pattern.slice(0, -1)) : id === pattern;
