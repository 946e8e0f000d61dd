import {
  type Body,
  type OpenJoint,
  openJoints,
  type Place,
  placesOf,
  placeText,
  keepingWords as words,
} from '@fettle/book';
import { useState } from 'preact/hooks';
import { useHandKeys } from '../../parts/hand-keys.ts';
import { Taps } from '../../parts/taps.tsx';
import { Mark } from '../../parts/verdict.tsx';
import { route } from '../../route.ts';
import { clock, deviceZone } from '../../state/clock.ts';
import { book } from '../../state/job.ts';
import { Another } from './another.tsx';
import { CureForm } from './cure-form.tsx';
import { enterOne, undoLast } from './entered.ts';
import { ReadBack } from './read-back.tsx';
import { AllOf, type Row, Rows } from './rows.tsx';

/** Joints that most engines have and no torque names. Common practice, no source. */
const USUAL = [
  'Core plugs',
  'Oil gallery plugs',
  'Rear seal',
  'Front seal',
  'Sump joint',
  'Drain plug',
  'Oil filter',
];

interface Joint {
  readonly id: string;
  readonly name: string;
  /** Where it is one of several. */
  readonly places: readonly Place[];
}

function jointsNow(): Joint[] {
  const { sheet, joints } = book.value;
  const known = new Map<string, Joint>();
  for (const fastener of sheet?.fasteners ?? [])
    known.set(fastener.id, {
      id: fastener.id,
      name: fastener.name,
      places: placesOf(sheet!, fastener).filter((place) => Object.keys(place).length > 0),
    });
  for (const { body } of joints.values())
    if (!known.has(body.joint))
      known.set(body.joint, {
        id: body.joint,
        name: body.name ?? body.joint.replaceAll('-', ' '),
        places: [],
      });
  return [...known.values()];
}

const timed = (joint: OpenJoint): string =>
  words.jointStanding(joint, { now: clock.value, zone: deviceZone() });

const openNow = (): OpenJoint[] => openJoints(book.value, clock.value);

const wasSaid = (id: string): boolean =>
  [...book.value.joints.values()].some(({ body }) => body.joint === id);

function rowOf({ id, name }: Joint, open: readonly OpenJoint[]): Row {
  const mine = open.filter(({ joint }) => joint === id);
  return {
    id,
    name,
    says:
      mine.length > 0
        ? mine
            .map((one) => [placeText(one.place), timed(one)].filter((part) => part !== '').join(': '))
            .join('; ')
        : wasSaid(id)
          ? 'nothing open'
          : 'nothing said',
    status: mine.length > 0 ? 'out' : wasSaid(id) ? 'in' : 'missing',
  };
}

/** Joints left loose, dry, finger-tight, wet or curing, by the device's clock. */
export function Joints() {
  const about = route.value.rest[1];
  const all = jointsNow();
  if (about !== undefined) {
    const name = route.value.rest[2] ?? about.replaceAll('-', ' ');
    return (
      <OneJoint key={about} joint={all.find(({ id }) => id === about) ?? { id: about, name, places: [] }} />
    );
  }
  const open = openNow();
  const order = ['out', 'in', 'missing'];
  const rows = all
    .map((joint) => rowOf(joint, open))
    .sort((a, b) => order.indexOf(a.status) - order.indexOf(b.status));
  return (
    <section>
      <h2>Joints: how each was left</h2>
      <Rows section="joints" rows={rows} />
      <Another
        section="joints"
        kind="joint"
        legend="Joints that most engines have"
        usual={USUAL}
        had={all.map(({ name }) => name)}
      />
      <ReadBack />
    </section>
  );
}

const SAID_AT_ONCE = ['loose', 'dry', 'finger-tight', 'tight', 'cured'] as const;
const STATES = [
  { value: 'loose', words: 'Loose' },
  { value: 'dry', words: 'Dry' },
  { value: 'finger-tight', words: 'Finger-tight' },
  { value: 'wet', words: 'Wet, to be closed on' },
  { value: 'curing', words: 'Curing' },
  { value: 'tight', words: 'Tight' },
  { value: 'cured', words: 'Cured' },
] as const;
type StateSaid = (typeof STATES)[number]['value'];

/** One joint: a tap says how it was left; what cures asks for the sealant's times. */
function OneJoint({ joint }: { readonly joint: Joint }) {
  const { id, name, places } = joint;
  const [at, setAt] = useState('');
  const [asking, setAsking] = useState<'wet' | 'curing' | undefined>(undefined);
  const open = openNow().filter((one) => one.joint === id);
  const isOnSheet = book.value.sheet?.fasteners.some((fastener) => fastener.id === id) === true;
  const place = places.find((one) => placeText(one) === at);
  const called = [name, at].filter((part) => part !== '').join(', ');
  const enter = async (said: Omit<Body<'joint-state'>, 'joint'>, read: string): Promise<void> => {
    const body = { joint: id, ...(isOnSheet ? {} : { name }), ...(place && { place }), ...said };
    if (await enterOne({ kind: 'joint-state', body }, () => `${called}: ${read}`)) setAsking(undefined);
  };
  const say = (state: StateSaid): void => {
    const plain = SAID_AT_ONCE.find((one) => one === state);
    if (plain) void enter({ state: plain }, plain);
    else if (state === 'wet' || state === 'curing') setAsking(state);
  };
  useHandKeys({
    digit: (digit) => {
      const state = STATES[Number(digit) - 1];
      if (state) say(state.value);
    },
    undo: () => void undoLast(),
  });
  const last = book.value.joints.get(`${id}@${at}`)?.body.state;
  return (
    <section class="loose-one">
      <AllOf section="joints" words="All joints" />
      <h1>{name}</h1>
      <ul class="loose-state">
        {open.length === 0 ? (
          <li>
            <Mark status={wasSaid(id) ? 'in' : 'missing'} />{' '}
            {wasSaid(id) ? 'Nothing is open here.' : 'Nothing was said of it yet.'}
          </li>
        ) : null}
        {open.map((one) => (
          <li key={placeText(one.place)}>
            <Mark status="out" />{' '}
            {[placeText(one.place), timed(one)].filter((part) => part !== '').join(': ')}
            <Cure joint={one} />
          </li>
        ))}
      </ul>
      {places.length > 1 ? (
        <Taps
          legend="Which"
          options={[
            { value: '', words: 'All of them' },
            ...places.map((one) => ({ value: placeText(one), words: placeText(one) })),
          ]}
          chosen={at}
          choose={setAt}
        />
      ) : null}
      <fieldset class="taps">
        <legend>It is now</legend>
        {STATES.map(({ value, words: word }, i) => (
          <button
            key={value}
            type="button"
            aria-pressed={asking === undefined ? last === value : asking === value}
            onClick={() => say(value)}
          >
            <small class="keys" aria-hidden="true">
              {i + 1}
            </small>{' '}
            {word}
          </button>
        ))}
      </fieldset>
      {asking === undefined ? null : <CureForm key={asking} wet={asking === 'wet'} enter={enter} />}
      <ReadBack />
      <p class="soft keys">Keys: 1 to 7 say how it was left, F8 takes it back.</p>
    </section>
  );
}

/** How far a cure has come, by the device's clock. */
function Cure({ joint: { sealant } }: { readonly joint: OpenJoint }) {
  const { startedAt, curedAt, fault } = sealant ?? {};
  if (startedAt === undefined || curedAt === undefined || fault !== undefined) return null;
  const share = Math.min(1, Math.max(0, (clock.value - startedAt) / Math.max(1, curedAt - startedAt)));
  return (
    <svg class="cure" viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true">
      <rect width={(100 * share).toFixed(1)} height="4" />
    </svg>
  );
}
