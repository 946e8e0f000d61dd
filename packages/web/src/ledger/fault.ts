import type { Issue } from '@fettle/core';

/** What went wrong while keeping something in this browser, in words that say what to do. */
export function keepingFault(error: unknown): Issue {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  const got = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  if (name === 'QuotaExceededError')
    return {
      code: 'browser/full',
      at: 'entry',
      got,
      wanted: 'room in this browser',
      message:
        'This device has no room left, so the entry was not made. What you typed is still in the field: free some room, then press Enter again.',
    };
  return {
    code: 'browser/cannot-keep',
    at: 'entry',
    got,
    wanted: 'a browser that keeps data',
    message:
      'This browser could not keep the entry, so it was not made. What you typed is still in the field: reload the page and press Enter again. A private window may keep nothing.',
  };
}
