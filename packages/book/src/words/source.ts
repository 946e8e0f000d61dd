import { SOURCES } from '@fettle/core';

/** A published source by its key: title and edition, and whether it was only remembered. */
export function sourceWords(key: keyof typeof SOURCES): string {
  const { title, edition, checked } = SOURCES[key]!;
  return `${[title, edition].filter(Boolean).join(', ')}${/memory/.test(checked ?? '') ? ' (from memory)' : ''}`;
}
