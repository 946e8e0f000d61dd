import { execFileSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

it('the book of the engine whose parts came back prints the chosen pistons beside those of the box', async () => {
  const desk = new CommandDesk();
  try {
    await desk.good('new', '--demo', 'returned');
    const file = desk.file('book.pdf');
    await desk.good('book', 'shop', '--to', file);
    const text = execFileSync('pdftotext', ['-raw', file, '-'], {
      encoding: 'utf8',
      maxBuffer: 1e8,
    }).replace(/\s+/g, ' ');
    const said = text.slice(text.indexOf('Skirt clearance: Piston and rings'));
    expect(said).toMatch(/^.{0,60}Fitted so: all 4 in;.{0,120}As boxed: 2 out, 2 in;/);
    // By hand from the sizes as they came: .0021 and .0021 in, .0015 and .0026 out; .0020 to .0021 as chosen.
    for (const row of [
      '1 Piston P1, .030 over 0.0021 ±0.0002 in Piston P1, .030 over 0.0021 ±0.0002 in',
      '2 Piston P2, .030 over 0.0021 ±0.0002 in Piston P2, .030 over 0.0021 ±0.0002 in',
      '3 Piston P4, .030 over 0.0020 ±0.0002 in Piston P3, .030 over 0.0015 ±0.0002 OUT',
      '4 Piston P3, .030 over 0.0021 ±0.0002 in Piston P4, .030 over 0.0026 ±0.0002 OUT',
    ])
      expect(said).toContain(row);
  } finally {
    desk.clear();
  }
}, 60_000);
