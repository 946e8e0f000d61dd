/** What is taken for known when faults are weighed. */
export const GROUNDS = [
  { value: 'measured', word: 'As found, with what was measured' },
  { value: 'before-strip', word: 'As found, by the gauge alone' },
  { value: 'now', word: 'As put together now' },
] as const;
export type Grounds = (typeof GROUNDS)[number]['value'];
