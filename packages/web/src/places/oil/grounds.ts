/** What is taken for known when faults are weighed. */
export const GROUNDS = [
  { grounds: 'measured', name: 'As found, with what was measured' },
  { grounds: 'before-strip', name: 'As found, by the gauge alone' },
  { grounds: 'now', name: 'As put together now' },
] as const;
export type Grounds = (typeof GROUNDS)[number]['grounds'];
