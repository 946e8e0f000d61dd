import { writeFileSync } from 'node:fs';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { type CheckJson, CommandDesk } from '../testing/desk.ts';

let desk = new CommandDesk();
beforeEach(() => {
  desk.clear();
  desk = new CommandDesk();
});
afterAll(() => desk.clear());

const status = async (name: string): Promise<string | undefined> =>
  (await desk.json<CheckJson>('check', 'blue')).judgements.find((one) => one.characteristic === name)?.status;

describe('an engine of one’s own from a spreadsheet', () => {
  it('goes from a list as a spreadsheet saves it to a proven engine, and the exit status follows', async () => {
    const list =
      'name;unit;new lower;new upper;wear upper\r\nCrank end float;thou;4;8;12\r\n"Main clearance; front";in;.0015;.0030;.0040\r\n';
    writeFileSync(desk.file('own.csv'), `\ufeff${list}`);
    await desk.good('new', '--from', desk.file('own.csv'), '--title', 'The blue one');
    expect((await desk.fettle(['check', 'blue'])).status).toBe(1);
    await desk.good(
      'tools',
      'blue',
      'add',
      'ind',
      'Dial indicator',
      '--type',
      'dial indicator',
      '--u',
      '0.0005 in',
    );
    const read = await desk.good('read', 'blue', 'crank-end-float', '11.5thou', '--with', 'ind');
    expect(read.out).toMatch(/○ IN +Crank end float/);
    await desk.good('read', 'blue', 'main-clearance-front', '0.0025in', '--with', 'ind');
    expect((await desk.fettle(['check', 'blue'])).status).toBe(0);
    await desk.good('read', 'blue', 'crank-end-float', '14thou', '--with', 'ind', '--confirm');
    expect((await desk.fettle(['check', 'blue'])).status).toBe(1);
  });

  it('goes from an outline through a spreadsheet and back', async () => {
    await desk.good(
      'new',
      '--outline',
      'inline',
      '--cylinders',
      '4',
      '--mains',
      '3',
      '--title',
      'The blue one',
    );
    await desk.good('spec', 'blue', '--to', desk.file('blue.csv'));
    const [heading, ...rows] = desk.text('blue.csv').split('\n');
    const columns = heading!.split(',');
    const filled = rows.map((row) => {
      // A cell with a comma stands in quotes.
      const cells = row.match(/("[^"]*"|[^,]*)(,|$)/g)!.map((cell) => cell.replace(/,$/, ''));
      if (cells[columns.indexOf('id')] !== 'head.flatness') return row;
      cells[columns.indexOf('new upper')] = '0.004 in';
      cells[columns.indexOf('document')] = 'Own notes';
      cells[columns.indexOf('trust')] = 'remembered';
      return cells.join(',');
    });
    writeFileSync(desk.file('blue.csv'), [heading, ...filled].join('\n'));
    await desk.good('spec', 'blue', '--from', desk.file('blue.csv'));
    await desk.good('tools', 'blue', 'add', 'edge', 'Straightedge', '--type', 'straightedge and leaf');
    const said = await desk.good('read', 'blue', 'head.flatness', '0.002in', '--with', 'edge');
    // Nothing was entered for the head yet, so what lies there becomes a part, and that is said.
    expect(said.out).toContain('Entered with it');
    expect(await status('head.flatness')).toBe('in');
    // What a list has no columns for is still there: covers, and what follows from readings.
    const check = await desk.json<CheckJson>('check', 'blue');
    expect(check.gates.length).toBeGreaterThan(3);
    expect(check.gates.every(({ state }) => state === 'held')).toBe(true);
    expect((await desk.good('why', 'blue', 'bore.taper@1')).out).toContain('formula: worst over axis');
  });

  it('a limit amended in the job is written out, and goes on counting over what is adopted, which is said', async () => {
    writeFileSync(
      desk.file('own.csv'),
      'name,unit,wear upper,document,trust\nGap,thou,5,Notes,assumed\nFloat,thou,12,Notes,assumed\n',
    );
    await desk.good('new', '--from', desk.file('own.csv'), '--title', 'The blue one');
    await desk.good(
      'amend',
      'blue',
      'gap',
      '--wear-upper',
      '6 thou',
      '--trust',
      'remembered',
      '--why',
      'older hand',
    );
    await desk.good('spec', 'blue', '--to', desk.file('out.csv'));
    expect(desk.text('out.csv')).toMatch(/^gap,.*,6 thou,/m);
    writeFileSync(desk.file('out.csv'), desk.text('out.csv').replace('6 thou', '7 thou'));
    const adopted = await desk.good('spec', 'blue', '--from', desk.file('out.csv'));
    expect(adopted.out).toMatch(/amended in this job go on counting .*gap/);
    expect((await desk.good('why', 'blue', 'gap')).out).toContain('max 6 thou');
  });

  it('a file name that says no format is refused rather than guessed', async () => {
    await desk.good(
      'new',
      '--outline',
      'twin',
      '--cylinders',
      '2',
      '--mains',
      '2',
      '--title',
      'The blue one',
    );
    expect(await desk.refused('spec', 'blue', '--to', desk.file('x.xls'))).toEqual(['file/unknown-ending']);
  });

  it('an outline has no oil circuit: check leaves the pressure out, oil says what is wanted', async () => {
    await desk.good('new', '--outline', 'v', '--cylinders', '8', '--mains', '5', '--title', 'The blue one');
    const { status: ended, out } = await desk.fettle(['check', 'blue']);
    expect(ended).toBe(1);
    expect(out).not.toMatch(/Predicted|NaN|undefined/);
    expect(await desk.refused('oil', 'blue')).toEqual(['oil/no-circuit']);
  });

  it('changes nothing when the file is malformed, and says where', async () => {
    writeFileSync(
      desk.file('bad.csv'),
      'name,unit,new lower,new upper\nBore,in,"3,500",3.501\nPin,furlongs,1,2\n',
    );
    const said = await desk.fettle(['new', '--from', desk.file('bad.csv')]);
    expect(said.status).toBe(2);
    expect(said.err).toMatch(/[Ll]ine 2/);
    expect(said.err).toMatch(/[Ll]ine 3/);
    expect(await desk.json('jobs')).toEqual([]);
    writeFileSync(desk.file('bad.json'), '{"format": "fettle-spec-sheet", "version": 1');
    expect(await desk.refused('new', '--from', desk.file('bad.json'))).toEqual(['file/not-json']);
    expect(await desk.refused('new', '--from', desk.file('none.csv'))).toEqual(['file/cannot-read']);
  });
});
