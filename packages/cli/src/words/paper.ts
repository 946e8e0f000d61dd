import { failed, type Issue, issue, type Outcome, ok } from '@fettle/core';
import type { Paper } from '@fettle/report';

const PAPERS: readonly Paper[] = ['a4', 'letter'];
export const PAPER_HELP = `the paper: ${PAPERS.join(' or ')}`;

/** The paper somebody names. */
export function paperNamed(said: string): Outcome<Paper> {
  const paper = PAPERS.find((one) => one === said.toLowerCase());
  return paper
    ? ok(paper)
    : failed(
        issue(
          'paper/unknown',
          '--paper',
          said,
          PAPERS.join(', '),
          `There is no paper "${said}" here. Take ${PAPERS.join(' or ')}.`,
        ),
      );
}

/** What keeps a printed thing out of its file. */
export function cannotWrite(to: string, error: unknown): Issue {
  const why = (error as NodeJS.ErrnoException).code ?? String(error);
  return issue(
    'file/cannot-write',
    to,
    why,
    'a file that can be written',
    `${to} cannot be written (${why}). Check the folder and its rights.`,
  );
}
