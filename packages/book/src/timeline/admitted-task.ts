import { failed, type Outcome, ok } from '@fettle/core';
import type { Book } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';
import { timeIssues } from './three-point.ts';

/** Whether a task can be reckoned with: its times read, and what it needs is on record. */
export function admittedTask(book: Book, body: Body<'task-planned'>): Outcome<Body<'task-planned'>> {
  const known = [...book.tasks.keys(), ...book.offers.keys(), ...book.supplies.keys()];
  const issues = [
    ...timeIssues(
      { likely: body.takes, soonest: body.soonest, latest: body.latest },
      { likely: 'takes', soonest: 'soonest', latest: 'latest' },
    ),
    ...(body.needs ?? [])
      .filter((id) => id === body.task || !known.includes(id))
      .map((id) => ({
        code: 'task/unknown-need',
        at: 'needs',
        got: id,
        wanted: known.join(', ') || 'another task',
        message: `${body.name} cannot wait for "${id}": ${id === body.task ? 'that is itself' : 'no task, offer or supply has that id'}. Enter it first, or leave it out.`,
      })),
  ];
  return issues.length > 0 ? failed(...issues) : ok(body);
}
