import { failed, issue, type Outcome, ok } from '@fettle/core';
import type { Currency } from '../words/money.ts';

/** The currencies there are, by ISO 4217, as far as this machine knows them. */
export const isCurrency = (code: string): boolean => Intl.supportedValuesOf('currency').includes(code);

/** The currency a job is opened with: a code of ISO 4217. */
export function currencySaid(at: string, said: string): Outcome<string> {
  const code = said.trim().toUpperCase();
  return isCurrency(code)
    ? ok(code)
    : failed(
        issue(
          'currency/unknown',
          at,
          said,
          'a code of ISO 4217, such as EUR',
          `"${said}" is no currency. Give its code of three letters by ISO 4217, such as EUR, GBP or USD.`,
        ),
      );
}

/**
 * A sum as it is said, alone or with its currency before or behind it. Sums of two currencies cannot be added, and no
 * rate is known here, so that another currency than the job's is refused.
 *
 * @param currency  that of the job; undefined where it names none
 */
export function sumSaid(at: string, said: string, currency: Currency): Outcome<number> {
  const match = /^(?:([A-Za-z]{3})\s*)?(\d+(?:\.\d+)?)(?:\s*([A-Za-z]{3}))?$/.exec(said.trim());
  const [, before, figure, behind] = match ?? [];
  if (figure === undefined || (before !== undefined && behind !== undefined))
    return failed(
      issue(
        'number/unreadable',
        at,
        said,
        'a plain number, 0 or more',
        `"${said}" is no sum. Give a plain number of 0 or more, such as 118${currency === undefined ? '' : `, or 118 ${currency}`}.`,
      ),
    );
  const own = (before ?? behind)?.toUpperCase();
  if (own === undefined || own === currency) return ok(Number(figure));
  return failed(
    issue(
      'currency/other',
      at,
      said,
      currency ?? 'a bare number',
      currency === undefined
        ? `This job names no currency, so ${said} cannot stand beside its other sums. Give the bare number.`
        : `This job is reckoned in ${currency}. Sums of two currencies are not mixed: give what it costs in ${currency}.`,
    ),
  );
}
