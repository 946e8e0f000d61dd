import { failed, type Issue, type Outcome, ok } from '@fettle/core';
import type * as z from 'zod';
import { LAYOUTS, type Layout } from './layout.ts';
import { outlineCharacteristics } from './outline-characteristics.ts';
import { type SpecSheet, sheetSchema } from './sheet.ts';

export interface Outline {
  readonly layout: Layout;
  readonly cylinders: number;
  /** Main bearings. */
  readonly mains: number;
  readonly title: string;
}

const numbered = (count: number): string[] => Array.from({ length: count }, (_, i) => String(i + 1));

/** Fewest and most of what a layout can have; between them a wrong number is a slip that cannot be seen. */
function rangesOf(
  layout: Layout,
  cylinders: number,
): { cylinders: [number, number]; mains: [number, number] } {
  // A main bearing between every two throws at most; in a V two rods share a throw.
  if (layout === 'v') return { cylinders: [2, 16], mains: [2, Math.max(2, Math.floor(cylinders / 2) + 1)] };
  if (layout === 'twin') return { cylinders: [2, 2], mains: [2, 3] };
  return { cylinders: [1, 12], mains: [2, Math.max(2, cylinders + 1)] };
}

function outlineFaults({ layout, cylinders, mains, title }: Outline): Issue[] {
  if (!LAYOUTS.includes(layout))
    return [
      {
        code: 'outline/layout',
        at: 'layout',
        got: String(layout),
        wanted: LAYOUTS.join(', '),
        message: `There is no outline "${layout}". Choose ${LAYOUTS.join(', ')}.`,
      },
    ];
  const issues: Issue[] = [];
  const ranges = rangesOf(layout, cylinders);
  const check = (at: 'cylinders' | 'mains', count: number, what: string): void => {
    const [least, most] = ranges[at];
    if (Number.isInteger(count) && count >= least && count <= most) return;
    const wanted = least === most ? `${least}` : `a whole number from ${least} to ${most}`;
    issues.push({
      code: `outline/${at}`,
      at,
      got: String(count),
      wanted,
      message: `An outline "${layout}"${at === 'mains' ? ` of ${cylinders}` : ''} has ${wanted} ${what}, not ${count}. Correct the number.`,
    });
  };
  check('cylinders', cylinders, 'cylinders');
  if (issues.length === 0) check('mains', mains, 'main bearings');
  if (issues.length === 0 && layout === 'v' && cylinders % 2 !== 0)
    issues.push({
      code: 'outline/cylinders',
      at: 'cylinders',
      got: String(cylinders),
      wanted: 'an even number',
      message: `A V has two banks alike, so ${cylinders} cylinders cannot be. Give an even number.`,
    });
  if (typeof title !== 'string' || title.trim() === '' || title.length > 200)
    issues.push({
      code: 'outline/title',
      at: 'title',
      got: title ? `${title.length} characters` : 'nothing',
      wanted: 'a name of 1 to 200 characters',
      message: 'The engine needs a name of 1 to 200 characters. Give one.',
    });
  return issues;
}

/**
 * Where an engine of one's own begins: characteristics and places by the trade's names, and no numbers.
 * Limits are typed in afterwards, with their page and trust, or it is said that the manual gives none;
 * fasteners come with their torques, which an outline does not know.
 *
 * The numbers of rings (3), pump gears (2) and cam bearings (as many as mains) are the usual ones and can be changed.
 */
export function outlineSheet(outline: Outline): Outcome<SpecSheet> {
  const issues = outlineFaults(outline);
  if (issues.length > 0) return failed(...issues);
  const { layout, cylinders, mains, title } = outline;
  const draft: z.input<typeof sheetSchema> = {
    format: 'fettle-spec-sheet',
    version: 1,
    title: title.trim(),
    summary: 'Outline without numbers. Every limit is still to be given, with its document, page and trust.',
    documents: {},
    axes: {
      cylinder: numbered(cylinders),
      height: ['top', 'mid', 'bottom'],
      axis: ['thrust', 'axial'],
      ring: ['top', 'second', 'oil'],
      main: numbered(mains),
      rod: numbered(cylinders),
      end: ['front', 'rear'],
      turn: ['0', '90'],
      gear: ['driving', 'driven'],
      'cam-bearing': numbered(mains),
      valve: ['intake', 'exhaust'],
      ...(layout === 'v' ? { bank: ['left', 'right'] } : {}),
    },
    positions: [
      { id: 'block', name: 'Block' },
      { id: 'crank', name: 'Crankshaft' },
      { id: 'rod-{rod}', name: 'Connecting rod {rod}', places: ['rod'] },
      { id: 'piston-{cylinder}', name: 'Piston {cylinder}', places: ['cylinder'] },
      { id: 'pump-gears', name: 'Oil pump gears' },
      { id: 'pump-body', name: 'Oil pump body' },
      { id: 'pump-cover', name: 'Oil pump cover' },
      { id: 'cam', name: 'Camshaft' },
      { id: 'head', name: layout === 'v' ? 'Cylinder heads' : 'Cylinder head' },
    ],
    characteristics: outlineCharacteristics(layout),
    covers: [
      ['crank', 'Crankshaft in', 6, ['main.*', 'crank.*', 'deck.*', 'bore.*']],
      ['pistons', 'Pistons in', 7, ['piston.*', 'rod.*']],
      ['timing', 'Timing cover', 4, ['cam.*']],
      ['pan', 'Oil pan', 5, ['pump.*']],
      ['head', layout === 'v' ? 'Heads on' : 'Head on', 6, ['valve.*', 'head.*']],
    ].map(([id, name, reopen_hours, characteristics], order) => ({
      id,
      name,
      order: order + 1,
      reopen_hours,
      hides: { characteristics },
    })) as z.input<typeof sheetSchema>['covers'],
  };
  return ok(sheetSchema.parse(draft));
}
