import { failed, type Outcome, ok } from '@fettle/core';
import type { Book } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';
import { timeIssues } from '../timeline/three-point.ts';
import { coveredIssues } from './covered-issues.ts';

/** Whether something that can be bought can be reckoned with beside the sheet adopted. */
export function admittedSupply(book: Book, body: Body<'supply-offered'>): Outcome<Body<'supply-offered'>> {
  const issues = [
    ...coveredIssues(book, body.covers),
    ...timeIssues(
      { likely: body.lead_time, soonest: body.soonest, latest: body.latest },
      { likely: 'lead_time', soonest: 'soonest', latest: 'latest' },
    ),
    ...(book.offers.has(body.supply)
      ? [
          {
            code: 'supply/is-an-offer',
            at: 'supply',
            got: body.supply,
            wanted: 'an id no repair on offer has',
            message: `"${body.supply}" is the id of a repair on offer. Give what is bought another id, and let it cover "${body.supply}".`,
          },
        ]
      : []),
  ];
  return issues.length > 0 ? failed(...issues) : ok(body);
}
