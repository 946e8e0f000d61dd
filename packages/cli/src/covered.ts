import type { Body } from '@fettle/book';
import { failed, issue, type Outcome, ok } from '@fettle/core';

const COVERED = /^(?<need>[a-z0-9][a-z0-9.-]*)(?::(?<count>[1-9]\d{0,4}))?(?:\s+size\s+(?<size>.+))?$/;

/** `piston:4 size .030 over`: a need, how many of it, and in which size. */
export function coveredFrom(text: string): Outcome<Body<'supply-offered'>['covers'][number]> {
  const said = COVERED.exec(text.trim())?.groups;
  if (!said)
    return failed(
      issue(
        'supply/unreadable',
        '--covers',
        text,
        'NEED[:COUNT][ size NAME]',
        `"${text}" does not read. Write NEED[:COUNT][ size NAME], such as piston:4 or "piston:4 size .030 over".`,
      ),
    );
  return ok({
    need: said.need!,
    count: said.count === undefined ? 1 : Number(said.count),
    ...(said.size !== undefined && { size: said.size }),
  });
}
