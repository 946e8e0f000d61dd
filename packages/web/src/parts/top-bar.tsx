import { hashOf, type PlaceName, route } from '../route.ts';
import { setSetting, theme } from '../state/desk.ts';
import { book, job, sending } from '../state/job.ts';
import { Choice } from './choice.tsx';

export const PLACES: readonly { readonly place: PlaceName; readonly name: string; readonly says: string }[] =
  [
    { place: 'bench', name: 'Bench', says: 'What is next' },
    { place: 'maps', name: 'Maps', says: 'Where each part is worn' },
    { place: 'decide', name: 'Decide', says: 'Sizes, partners, machining, buying' },
    { place: 'oil', name: 'Oil', says: 'The pressure these clearances would give' },
    { place: 'loose', name: 'Loose ends', says: 'Openings, joints, marks, cleaning; how it was left' },
    { place: 'covers', name: 'Covers', says: 'What each is about to hide' },
    { place: 'sheet', name: 'Sheet', says: 'Limits, instruments, parts, units, story' },
    { place: 'book', name: 'Entries', says: 'Everything entered, and what is printed' },
  ];

/** Where one is and where one can go; on a phone only the way back, the bench itself names the places. */
export function TopBar() {
  const { place } = route.value;
  const id = job.value;
  if (id === undefined) return null;
  return (
    <header class={place === 'at' ? 'top top-at' : 'top'}>
      <a class="engine" href={hashOf(id, 'bench')} aria-current={place === 'bench' ? 'page' : undefined}>
        <span class="back" aria-hidden="true">
          {place === 'bench' ? '' : '‹ '}
        </span>
        <span class="engine-name">
          {place === 'bench' ? (book.value.opened?.body.title ?? 'The bench') : 'Bench'}
        </span>
      </a>
      <nav aria-label="Places">
        {PLACES.map(({ place: name, name: word }) => (
          <a key={name} href={hashOf(id, name)} aria-current={isAt(place, name) ? 'page' : undefined}>
            {word}
          </a>
        ))}
      </nav>
      <Waiting />
    </header>
  );
}

const isAt = (place: PlaceName, name: PlaceName): boolean =>
  place === name || (place === 'at' && name === 'bench');

/** Whether what was written has reached the desk. Nothing is lost while it has not. */
function Waiting() {
  const said = sending.value;
  const entries = said?.left === 1 ? '1 entry' : `${said?.left ?? 0} entries`;
  const words =
    said === undefined || (said.state === 'sent' && said.left === 0)
      ? undefined
      : {
          offline: `No server: ${said.left > 0 ? `${entries} kept here, sent later` : 'working from this device'}`,
          stranger: `This device is not paired: ${entries} kept here`,
          unable: `${said.words ?? 'The server cannot take entries just now.'} ${said.left > 0 ? `${entries} kept here.` : ''}`,
          refused: `The server refused ${entries}: ${said.words ?? ''}`,
          sent: `${entries} kept here alone`,
        }[said.state];
  return (
    <p class="waiting" role="status">
      {words}
    </p>
  );
}

const THEMES = [
  { value: '', word: 'As the device' },
  { value: 'light', word: 'Light' },
  { value: 'dark', word: 'Dark' },
] as const;

export function ThemeChoice() {
  return (
    <Choice
      legend="Paper"
      name="theme"
      options={THEMES}
      value={theme.value}
      choose={(one) => setSetting('theme', one)}
    />
  );
}
