import { expect, it } from 'vitest';
import { about, money } from '../words/money.ts';
import { currencySaid, sumSaid } from './sum-said.ts';

const outcome = (said: string, currency?: string) => {
  const sum = sumSaid('--price', said, currency);
  return sum.ok ? sum.value : sum.issues[0]!.code;
};

it('a sum is read alone or with the job’s own currency, before or behind it', () => {
  for (const said of ['26', '26 EUR', 'EUR 26', '26eur', ' 26.00 EUR '])
    expect(outcome(said, 'EUR')).toBe(26);
  expect(outcome('9.5')).toBe(9.5);
});

it('another currency than the job’s is refused, and any where the job names none', () => {
  expect(outcome('26 USD', 'EUR')).toBe('currency/other');
  expect(outcome('GBP 26', 'EUR')).toBe('currency/other');
  expect(outcome('26 EUR')).toBe('currency/other');
});

it('what is no sum is refused', () => {
  for (const said of ['', '-4', 'cheap', '1e3', 'EUR 5 EUR', '1,5', '0x10'])
    expect(outcome(said, 'EUR')).toBe('number/unreadable');
});

it('a job is opened with a code of ISO 4217 and with nothing else', () => {
  expect(currencySaid('--currency', 'eur')).toEqual({ ok: true, value: 'EUR' });
  for (const said of ['€', 'euro', 'EU', 'QQQ']) expect(currencySaid('--currency', said).ok).toBe(false);
});

it('money is said with its code and in its own coins; without one it is bare', () => {
  expect(money(1627, 'EUR')).toBe('1627 EUR');
  expect(money(9.5, 'EUR')).toBe('9.50 EUR');
  expect(money(26, undefined)).toBe('26');
  // ISO 4217: the yen has no smaller coin, the Kuwaiti dinar has a thousandth.
  expect(money(1499.6, 'JPY')).toBe('1500 JPY');
  expect(money(1.5, 'KWD')).toBe('1.500 KWD');
  expect(about(182.7, 'EUR')).toBe('183 EUR');
});
