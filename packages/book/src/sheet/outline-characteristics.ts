import type * as z from 'zod';
import type { Layout } from './layout.ts';
import type { Relation } from './relation.ts';
import type { sheetSchema } from './sheet.ts';

/** What an outline measures, by the trade's names: common practice, no source. */
type Draft = z.input<typeof sheetSchema>['characteristics'][number];

const NOT_GIVEN = 'not given yet';

const length = (group: string, id: string, name: string, more: Partial<Draft> = {}): Draft => ({
  id,
  name,
  group,
  kind: 'length',
  non_negative: true,
  no_limits: NOT_GIVEN,
  ...more,
});

const less = (of: Relation, taken: Relation): Relation => ({
  linear: {
    terms: [
      { factor: 1, of },
      { factor: -1, of: taken },
    ],
  },
});
const mean = (of: string, over: string[]): Relation => ({ reduce: { by: 'mean', over, of } });
const range = (of: Relation, over: string[]): Relation => ({ reduce: { by: 'range', over, of } });

const BORES = 'Bores, pistons';

function boresAndPistons(): Draft[] {
  const all = ['cylinder', 'height', 'axis'];
  const bore = { position: 'block', places: ['cylinder'] };
  return [
    length(BORES, 'bore.size', 'Bore', { position: 'block', places: all, with: 'dial bore gauge' }),
    length(BORES, 'bore.taper', 'Bore taper', {
      ...bore,
      relation: { reduce: { by: 'worst', over: ['axis'], of: range('bore.size', ['height']) } },
    }),
    length(BORES, 'bore.out-of-round', 'Bore out-of-round, as a difference of diameters', {
      ...bore,
      relation: { reduce: { by: 'worst', over: ['height'], of: range('bore.size', ['axis']) } },
    }),
    length(BORES, 'piston.skirt', 'Piston, across the skirt', {
      position: 'piston-{cylinder}',
      places: ['cylinder'],
      with: 'micrometer',
    }),
    length(BORES, 'piston.skirt-clearance', 'Skirt clearance', {
      places: ['cylinder'],
      measurand: 'diametral',
      relation: less({ reduce: { by: 'least', over: ['height', 'axis'], of: 'bore.size' } }, 'piston.skirt'),
    }),
    length(BORES, 'piston.ring-gap', 'Ring gap', {
      position: 'piston-{cylinder}',
      places: ['cylinder', 'ring'],
      with: 'feeler',
    }),
    length(BORES, 'piston.ring-side-clearance', 'Ring side clearance', {
      position: 'piston-{cylinder}',
      places: ['cylinder', 'ring'],
      with: 'feeler',
    }),
  ];
}

/** Journal, shell and clearance of one kind of bearing of the crank. */
function bearing(what: 'main' | 'rod', name: string): Draft[] {
  const group = 'Crank, rods';
  const journal = `${what}.journal`;
  const one = { position: 'crank', places: [what] };
  return [
    length(group, journal, `${name} journal`, {
      position: 'crank',
      places: [what, 'end', 'turn'],
      with: 'micrometer',
    }),
    length(group, `${journal}-taper`, `${name} journal taper`, {
      ...one,
      relation: { reduce: { by: 'worst', over: ['turn'], of: range(journal, ['end']) } },
    }),
    length(group, `${journal}-out-of-round`, `${name} journal out-of-round, as a difference of diameters`, {
      ...one,
      relation: { reduce: { by: 'worst', over: ['end'], of: range(journal, ['turn']) } },
    }),
    length(group, `${what}.shell`, `${name} shell bore, cap torqued`, {
      position: what === 'main' ? 'block' : 'rod-{rod}',
      places: [what],
      with: 'dial bore gauge',
    }),
    length(group, `${what}.clearance`, `${name} bearing clearance`, {
      places: [what],
      measurand: 'diametral',
      relation: less(`${what}.shell`, mean(journal, ['end', 'turn'])),
    }),
  ];
}

function crank(): Draft[] {
  return [
    ...bearing('main', 'Main'),
    ...bearing('rod', 'Rod'),
    length('Crank, rods', 'crank.end-float', 'Crankshaft end float', {
      position: 'crank',
      with: 'dial indicator',
    }),
    length('Crank, rods', 'rod.side-clearance', 'Rod side clearance', {
      position: 'rod-{rod}',
      places: ['rod'],
      with: 'feeler',
    }),
  ];
}

function oilPump(): Draft[] {
  const group = 'Oil pump';
  return [
    length(group, 'pump.gear-width', 'Pump gear width', {
      position: 'pump-gears',
      places: ['gear'],
      with: 'micrometer',
    }),
    length(group, 'pump.gear-diameter', 'Pump gear outside diameter', {
      position: 'pump-gears',
      places: ['gear'],
      with: 'micrometer',
    }),
    length(group, 'pump.body-depth', 'Pump body depth', {
      position: 'pump-body',
      places: ['gear'],
      with: 'depth micrometer',
    }),
    length(group, 'pump.body-bore', 'Pump body bore', {
      position: 'pump-body',
      places: ['gear'],
      with: 'telescoping gauge',
    }),
    length(group, 'pump.cover-groove', 'Groove worn into the pump cover', {
      position: 'pump-cover',
      places: ['gear'],
      with: 'depth micrometer',
    }),
    length(group, 'pump.end-clearance', 'Pump end clearance, groove of the cover included', {
      places: ['gear'],
      measurand: 'total',
      relation: {
        linear: {
          terms: [
            { factor: 1, of: 'pump.body-depth' },
            { factor: -1, of: 'pump.gear-width' },
            { factor: 1, of: 'pump.cover-groove' },
          ],
        },
      },
    }),
    length(group, 'pump.radial-clearance', 'Pump radial clearance', {
      places: ['gear'],
      measurand: 'per side',
      relation: {
        linear: {
          terms: [
            { factor: 0.5, of: 'pump.body-bore' },
            { factor: -0.5, of: 'pump.gear-diameter' },
          ],
        },
      },
    }),
    length(group, 'pump.backlash', 'Pump gear backlash', { position: 'pump-gears', with: 'dial indicator' }),
    length(group, 'pump.pickup-height', 'Pickup above the pan floor', {
      position: 'pump-body',
      with: 'depth micrometer',
    }),
  ];
}

function camAndHead(): Draft[] {
  const group = 'Cam, valve gear';
  const valve = { places: ['cylinder', 'valve'] };
  return [
    length(group, 'cam.lobe-lift', 'Cam lobe lift', { position: 'cam', ...valve, with: 'dial indicator' }),
    length(group, 'cam.end-float', 'Camshaft end float', { position: 'cam', with: 'feeler' }),
    length(group, 'cam.bush-clearance', 'Cam bearing clearance', {
      places: ['cam-bearing'],
      measurand: 'diametral',
      position: 'cam',
    }),
    length(group, 'valve.stem-clearance', 'Valve stem clearance', {
      ...valve,
      measurand: 'diametral',
      position: 'head',
    }),
    length(group, 'valve.seat-width', 'Valve seat width', { ...valve, position: 'head', with: 'calliper' }),
    length(group, 'valve.spring-free-length', 'Valve spring, free length', {
      ...valve,
      position: 'head',
      with: 'calliper',
    }),
    {
      ...length(group, 'valve.spring-load', 'Valve spring load at its seated length', {
        ...valve,
        position: 'head',
        with: 'spring tester',
        caution:
          'A compressed valve spring can fly. Wear eye protection, keep fingers and face out of its line, and follow the sheet of the tester’s maker.',
      }),
      kind: 'force',
    },
    length('Head, deck', 'head.flatness', 'Flatness of the head', {
      position: 'head',
      with: 'straightedge and leaf',
    }),
    length('Head, deck', 'deck.flatness', 'Flatness of the block deck', {
      position: 'block',
      with: 'straightedge and leaf',
    }),
  ];
}

/** Heads, decks: one for each bank. */
const byBank = (drafts: Draft[], layout: Layout): Draft[] =>
  layout === 'v'
    ? drafts.map((draft) => (draft.group === 'Head, deck' ? { ...draft, places: ['bank'] } : draft))
    : drafts;

/** Every characteristic of an outline. */
export const outlineCharacteristics = (layout: Layout): Draft[] =>
  byBank([...boresAndPistons(), ...crank(), ...oilPump(), ...camAndHead()], layout);
