import { failed, type Issue } from '@fettle/core';
import type { Context } from 'hono';
import { given, Refusal } from './problem.ts';

const MEBIBYTE = 2 ** 20;
/** Largest bodies [bytes]. */
export const LIMITS = {
  form: 16 * 1024,
  json: 4 * MEBIBYTE,
  entries: 16 * MEBIBYTE,
  parcel: 64 * MEBIBYTE,
  photo: 20 * MEBIBYTE,
  archive: 256 * MEBIBYTE,
} as const;

const tooLarge = (limit: number, got: string): Refusal =>
  new Refusal(
    413,
    [
      {
        code: 'request/too-large',
        at: '',
        got,
        wanted: `at most ${limit} bytes`,
        message: `This is too large: got ${got}, at most ${limit} bytes are taken here. Send less at once. Nothing was kept.`,
      },
    ],
    // What is still on its way is not worth reading.
    { Connection: 'close' },
  );

/** The body, never more of it in memory than `limit` [bytes]. */
export async function bytesOf(c: Context, limit: number): Promise<Uint8Array<ArrayBuffer>> {
  const announced = Number(c.req.header('content-length') ?? 0);
  if (announced > limit) throw tooLarge(limit, `${announced} bytes`);
  const pieces: Uint8Array[] = [];
  let size = 0;
  try {
    for await (const piece of (c.req.raw.body ?? []) as AsyncIterable<Uint8Array>) {
      size += piece.length;
      if (size > limit) throw tooLarge(limit, `more than ${limit} bytes`);
      pieces.push(piece);
    }
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(400, [cutShort(size)]);
  }
  const bytes = new Uint8Array(size);
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}

const cutShort = (size: number): Issue => ({
  code: 'request/cut-short',
  at: '',
  got: `${size} bytes, then nothing`,
  wanted: 'the whole of it',
  message: 'The request broke off before its end. Nothing was kept; send it again.',
});

/** The media type of the body, in lower case and without its parameters; refused when it is none of these. */
export function mediaOf(c: Context, allowed: readonly string[]): string {
  const said = c.req.header('content-type') ?? '';
  const media = said.split(';')[0]!.trim().toLowerCase();
  if (allowed.includes(media)) return media;
  throw new Refusal(415, [
    {
      code: 'request/media',
      at: 'Content-Type',
      got: said.slice(0, 100) || 'nothing',
      wanted: allowed.join(', '),
      message: `What was sent calls itself ${said.slice(0, 100) || 'nothing'}; here ${allowed.join(', ')} is taken. Send it as that.`,
    },
  ]);
}

export async function textOf(c: Context, limit: number): Promise<string> {
  const bytes = await bytesOf(c, limit);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return given(
      failed({
        code: 'request/not-utf-8',
        at: '',
        got: 'bytes that are not UTF-8',
        wanted: 'text in UTF-8',
        message: 'What was sent is not text in UTF-8. Send it so encoded.',
      }),
    );
  }
}

export async function jsonOf(c: Context, limit: number): Promise<unknown> {
  mediaOf(c, ['application/json']);
  const text = await textOf(c, limit);
  try {
    return JSON.parse(text);
  } catch (error) {
    return given(
      failed({
        code: 'request/not-json',
        at: '',
        got: text.trim() === '' ? 'nothing' : text.trim().slice(0, 80),
        wanted: 'one JSON value',
        message: `What was sent is no JSON: ${error instanceof Error ? error.message : String(error)}. Nothing was kept.`,
      }),
    );
  }
}
