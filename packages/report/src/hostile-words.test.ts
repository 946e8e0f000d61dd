import { expect, it } from 'vitest';
import { buildBookPdf } from './build-book.ts';
import { printableText } from './printable.ts';
import { begun, folded } from './testing/linnet-job.ts';
import { fontsOf, textOf } from './testing/pdf.ts';
import { wallSheetPdf } from './wall-sheet.ts';

const PRINTED_AT = '2026-05-01T09:30:00Z';

const HOSTILE = [
  '#eval("1+1") #import "x" #panic() #read("/etc/passwd")',
  '*bold* _it_ $x^2$ = heading @ref <label> `raw` \\ // comment /* more */ ~ [x] {y}',
  'sys.inputs.data ") + panic("',
  '<svg onload=alert(1)> &amp; </text>',
];

it('prints what a user wrote as it was written, never as markup', async () => {
  const desk = begun({ title: HOSTILE[0]!, owner: HOSTILE[1]!, story: HOSTILE.join('\n\n') });
  desk.instrument('mic', HOSTILE[1]!, HOSTILE[2]!, '0.0002 in');
  for (const text of HOSTILE) desk.write('note', { text, about: text });
  const pdf = await buildBookPdf({ book: folded(desk.entries), paper: 'a4', printedAt: PRINTED_AT });
  const packed = textOf(pdf).replace(/\s/g, '');
  for (const words of HOSTILE) expect(packed).toContain(words.replace(/\s/g, ''));
  expect(
    textOf(await wallSheetPdf({ book: folded(desk.entries), paper: 'a4', printedAt: PRINTED_AT })),
  ).toContain('#eval("1+1")');
});

it('prints signs its typeface lacks, control and direction marks by number, and embeds no other font', async () => {
  const desk = begun({ title: 'Pump 😀 \u202Eback\u0007', owner: 'שלום مرحبا 漢字', story: 'µ' });
  desk.write('note', { text: '\u0000\u001b[31m\ufeff\u200f\ud800' });
  const pdf = await buildBookPdf({ book: folded(desk.entries), paper: 'a4', printedAt: PRINTED_AT });
  const packed = textOf(pdf).replace(/\s/g, '');
  for (const code of ['[U+1F600]', '[U+202E]', '[U+0007]', '[U+05E9]', '[U+6F22]', '[U+0000]', '[U+D800]'])
    expect(packed).toContain(code);
  for (const { name } of fontsOf(pdf)) expect(name).toMatch(/^AtkinsonHyperlegibleNext-/);
});

it('breaks words too long for their column, and rows too tall for their page', async () => {
  const desk = begun({ title: 'W'.repeat(200) });
  desk.instrument('mic', 'i'.repeat(200), 'x'.repeat(60), '0.0002 in');
  desk.write('reading', {
    characteristic: 'crank.end-float',
    instrument: 'mic',
    value: '0.0115 in',
    note: `${'m'.repeat(9000)} ${'words and more '.repeat(700)}the end`,
  });
  desk.write('note', { text: 'line\n'.repeat(3000) });
  const pdf = await buildBookPdf({ book: folded(desk.entries), paper: 'letter', printedAt: PRINTED_AT });
  const packed = textOf(pdf).replace(/\s/g, '');
  expect(packed).toContain('theend');
  expect((packed.match(/m{20,}/g) ?? []).join('').length).toBeGreaterThan(1000);
});

it('keeps what can be shown and gives everything else its number', () => {
  expect(printableText('4.5 ±0.2 µm, 1/2-13')).toBe('4.5 ±0.2 μm, 1/2-13');
  expect(printableText('a\tb\r\nc')).toBe('a b\nc');
  expect(printableText('e\u0301')).toBe('é');
  expect(printableText('\u202e')).toBe('[U+202E]');
  // A hyphen breaks a line by itself; only what has none is offered breaks.
  expect(printableText('crank.main-journal-of-some-length')).toBe('crank.main-journal-of-some-length');
  expect(printableText('crankcaseventilationvalve')).toBe('crankcas\u200beventila\u200btionvalv\u200be');
});
