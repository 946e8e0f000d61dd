import { STATUS_CODES } from 'node:http';
import type { Issue, Outcome } from '@fettle/core';

/** An answer that is not what was asked for; thrown by handlers, told by `problemResponse`. */
export class Refusal extends Error {
  readonly status: number;
  readonly issues: readonly Issue[];
  readonly headers: Readonly<Record<string, string>>;
  constructor(status: number, issues: readonly Issue[], headers: Readonly<Record<string, string>> = {}) {
    super(issues[0]?.message ?? STATUS_CODES[status]);
    this.status = status;
    this.issues = issues;
    this.headers = headers;
  }
}

/** Issues that are not simply a request the sender has to correct (400). */
const STATUS: Readonly<Record<string, number>> = {
  'entry/id-reused': 409,
  'job/id-reused': 409,
  'job/unknown': 404,
  'store/no-such-job': 404,
  'sheet/unknown': 404,
  'photo/unknown': 404,
  'calculator/unknown': 404,
  'request/unknown-path': 404,
  'device/unknown': 404,
  'photo/size': 413,
  'photo/media': 415,
  'store/in-use': 503,
  'store/disk-full': 507,
};

const statusOf = ({ code }: Issue): number => STATUS[code] ?? (code.startsWith('store/') ? 500 : 400);

/** The worst of several issues decides: what the sender cannot mend is told before what he can. */
export function refusalOf(issues: readonly Issue[]): Refusal {
  const status = Math.max(...issues.map(statusOf));
  return new Refusal(status, issues, status === 503 ? { 'Retry-After': '1' } : {});
}

/** The value of an outcome; otherwise its issues are the answer. */
export function given<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw refusalOf(outcome.issues);
}

/** RFC 9457: a problem detail, with our issues as its extension. */
export function problemResponse({ status, issues, headers, message }: Refusal): Response {
  return new Response(
    JSON.stringify({
      type: 'about:blank',
      title: STATUS_CODES[status] ?? 'Error',
      status,
      detail: message,
      issues,
    }),
    {
      status,
      headers: { 'Content-Type': 'application/problem+json', 'Cache-Control': 'no-store', ...headers },
    },
  );
}

/** What went wrong without anybody having foreseen it: no word of it but that, and never a stack trace. */
export const ownFault = (): Refusal =>
  new Refusal(500, [
    {
      code: 'server/fault',
      at: '',
      got: 'a fault of the program',
      wanted: 'an answer',
      message:
        'The server is at fault and did not answer this. Nothing acknowledged is lost. Try again; if it comes back, its own window says more.',
    },
  ]);
