import { failed, type Issue, type Outcome, ok } from '@fettle/core';
import type { Running } from '../running.ts';

/** No answer came: whether anything was done is not known. */
export const NO_ANSWER = 'server/no-answer';
/** An answer that takes longer than this does not come [ms]. */
const PATIENCE = 30_000;

export type Body = { readonly media: string; readonly bytes: Uint8Array | string };

/** One request to the server that holds a data directory. 404 is `undefined`: what is asked for is not there. */
export async function called(
  { address, secret }: Pick<Running, 'address' | 'secret'>,
  method: string,
  path: string,
  body?: Body,
): Promise<Outcome<Response | undefined>> {
  let response: Response;
  try {
    response = await fetch(new URL(path, address), {
      method,
      headers: { Authorization: `Bearer ${secret}`, ...(body && { 'Content-Type': body.media }) },
      ...(body && { body: typeof body.bytes === 'string' ? body.bytes : new Uint8Array(body.bytes) }),
      redirect: 'error',
      signal: AbortSignal.timeout(PATIENCE),
    });
  } catch (error) {
    return failed(noAnswer(address, error instanceof Error ? error.message : String(error)));
  }
  if (response.ok) return ok(response);
  const issues = await issuesIn(response);
  if (response.status === 404) return ok(undefined);
  return failed(...(issues.length > 0 ? issues : [noAnswer(address, `status ${response.status}`)]));
}

async function issuesIn(response: Response): Promise<Issue[]> {
  try {
    const { issues } = (await response.json()) as { issues?: Issue[] };
    return Array.isArray(issues) ? issues : [];
  } catch {
    return [];
  }
}

/** The JSON of an answer; half of one is no answer. */
export async function jsonIn<T>(response: Response, address: string): Promise<Outcome<T>> {
  try {
    return ok((await response.json()) as T);
  } catch (error) {
    return failed(noAnswer(address, error instanceof Error ? error.message : String(error)));
  }
}

const noAnswer = (address: string, got: string): Issue => ({
  code: NO_ANSWER,
  at: address,
  got,
  wanted: 'an answer',
  message: `The server at ${address} holds the data directory but gives no answer (${got}). Stop it (Ctrl-C in its window), then try again.`,
});
