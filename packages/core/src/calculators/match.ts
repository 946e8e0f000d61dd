import * as z from 'zod';
import { calculator } from '../catalogue/calculator.ts';
import { defaultedChoice, optionalStructure, structure } from '../catalogue/field.ts';
import type { Issue } from '../issue.ts';
import { matching } from '../matching/match.ts';

const MOST = 500;

const costs = z
  .array(z.array(z.number()).min(1).max(MOST))
  .min(1)
  .max(MOST)
  .describe('one row for each thing to place, one column for each place');

const pairs = z
  .array(z.tuple([z.int().min(0), z.int().min(0)]))
  .describe('row and column, counted from 0, that must not be paired');

export const MATCH = calculator({
  name: 'match',
  sentence:
    'Which of these goes with which of those, so that the costs together, or the worst of them, are least.',
  formula: [
    'sum: minimise Σ c(i, column of i), each column taken once',
    'worst: minimise max c(i, column of i), and among those the sum',
  ],
  sources: ['jonker-volgenant'],
  input: {
    costs: structure(costs, 'cost of each pair; any finite numbers'),
    objective: defaultedChoice('what is made least', ['sum', 'worst'], 'sum'),
    forbidden: optionalStructure(pairs, 'pairs that are not allowed'),
  },
  output: {
    assignment: { kind: 'value', doc: 'column of each row, counted from 0' },
    total: { kind: 'value', doc: 'sum of the costs chosen' },
    worst: { kind: 'value', doc: 'the greatest of them' },
  },
  range: 'no more rows than columns; exact up to the rounding of the costs',
  example: {
    costs: [
      [400, 150, 400],
      [400, 450, 600],
      [300, 225, 300],
    ],
  },
  compute: (i) => {
    const issue = faultOf(i.costs, i.forbidden ?? []);
    if (issue) return { issues: [issue] };
    const found = matching(i.costs, i.objective === 'worst' ? 'worst' : 'sum', i.forbidden);
    if (!found)
      return {
        issues: [
          {
            code: 'match/none',
            at: 'forbidden',
            got: 'forbidden pairs that leave no way to place every row',
            wanted: 'a way for every row',
            message: 'With these pairs forbidden not every row finds a column. Allow one, or add columns.',
          },
        ],
      };
    return { results: { ...found, objective: i.objective } };
  },
});

function faultOf(
  costs: readonly (readonly number[])[],
  forbidden: readonly (readonly [number, number])[],
): Issue | undefined {
  const columns = costs[0]!.length;
  const uneven = costs.findIndex((row) => row.length !== columns);
  if (uneven >= 0)
    return {
      code: 'match/uneven',
      at: `costs/${uneven}`,
      got: `${costs[uneven]!.length} columns`,
      wanted: `${columns}, as in the first row`,
      message: `Row ${uneven} has ${costs[uneven]!.length} costs, the first has ${columns}. Give a cost for every pair.`,
    };
  if (costs.length > columns)
    return {
      code: 'match/too-many-rows',
      at: 'costs',
      got: `${costs.length} rows, ${columns} columns`,
      wanted: 'no more rows than columns',
      message: `${costs.length} rows cannot each have a column of ${columns}. Turn the table round, or take rows away.`,
    };
  const outside = forbidden.findIndex(([i, j]) => i >= costs.length || j >= columns);
  if (outside < 0) return undefined;
  return {
    code: 'match/no-such-pair',
    at: `forbidden/${outside}`,
    got: forbidden[outside]!.join(', '),
    wanted: `row 0 to ${costs.length - 1}, column 0 to ${columns - 1}`,
    message: `There is no pair ${forbidden[outside]!.join(', ')}: rows and columns are counted from 0.`,
  };
}
