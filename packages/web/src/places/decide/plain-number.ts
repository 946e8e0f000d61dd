import type { Issue } from '@fettle/core';

/** A plain number of zero or more; nothing said is nothing known. */
export function plainNumber(at: string, text: string): { readonly value?: number; readonly issue?: Issue } {
  const said = text.trim();
  if (said === '') return {};
  const value = Number(said);
  if (Number.isFinite(value) && value >= 0) return { value };
  return {
    issue: {
      code: 'number/unreadable',
      at,
      got: said,
      wanted: 'a number, 0 or more',
      message: `"${said}" is no number. Give the ${at} as a plain number of 0 or more, such as 26.`,
    },
  };
}
