import type { Issue } from '@fettle/core';
import { issueWords } from '../words/issue.ts';

/** What is wrong, beside what it is about. */
export function IssueLines({ issues, id }: { readonly issues: readonly Issue[]; readonly id?: string }) {
  return (
    <div id={id} class="issues" aria-live="assertive">
      {issues.map((issue) => (
        <p key={`${issue.code} ${issue.at}`} class="issue">
          {issueWords(issue)}
        </p>
      ))}
    </div>
  );
}
