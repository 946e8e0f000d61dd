import { positionAt, positionsOf, type SheetPosition } from '@fettle/book';
import { Choice } from '../../parts/choice.tsx';
import { PositionOptions } from '../../parts/position-options.tsx';
import { book } from '../../state/job.ts';
import { show, type View, view } from '../../state/view.ts';

const VIEWS: readonly { readonly value: View['as']; readonly word: string }[] = [
  { value: 'now', word: 'As it is now' },
  { value: 'found', word: 'As it was found' },
  { value: 'trial', word: 'A part on trial' },
];

/** Parts that are entered and fitted nowhere: only those can be tried. */
function spareParts(): { readonly id: string; readonly name: string }[] {
  const { parts, positions } = book.value;
  const fitted = new Set([...positions.values()].map(({ now }) => now?.part));
  return [...parts.values()].filter(({ id }) => !fitted.has(id));
}

const beginning = (text: string): string => /^\p{L}*/u.exec(text.toLowerCase())?.[0] ?? '';

/** Where a part was read, as far as its readings say. */
function placesRead(part: string): ReadonlySet<string> {
  const { parts, readings, characteristics } = book.value;
  const states = new Set(parts.get(part)?.states.map(({ id }) => id));
  return new Set(
    readings.flatMap(({ body }) => {
      const position = characteristics.get(body.characteristic)?.position;
      return body.state !== undefined && states.has(body.state) && position !== undefined
        ? positionAt(position, body.place ?? {})
        : [];
    }),
  );
}

/** Positions a part could be tried in: where it was read, then those called like it, then the others. */
function positionsFor(part: string): readonly SheetPosition[] {
  const { sheet, parts } = book.value;
  const read = placesRead(part);
  const name = beginning(parts.get(part)?.name ?? '');
  const rank = (one: SheetPosition): number =>
    read.has(one.id) ? 0 : beginning(one.name) === name || beginning(one.id) === beginning(part) ? 1 : 2;
  return (sheet ? positionsOf(sheet) : []).sort((one, other) => rank(one) - rank(other));
}

/** Whether the list shows the engine as it is, as it was found, or with a part tried that lies on the bench. */
export function ViewChoice() {
  const shown = view.value;
  const spare = spareParts();
  const choose = (as: View['as']): void => {
    const [part] = spare;
    const [position] = part ? positionsFor(part.id) : [];
    if (as !== 'trial') show({ as });
    else if (part && position) show({ as, part: part.id, position: position.id });
  };
  return (
    <div class="view">
      <Choice
        legend="The engine"
        name="view"
        options={VIEWS.filter(({ value }) => value !== 'trial' || spare.length > 0)}
        value={shown.as}
        choose={choose}
      />
      {shown.as === 'trial' ? (
        <div class="form two">
          <label>
            On trial
            <select
              value={shown.part}
              onChange={({ currentTarget: { value: part } }) => {
                show({ ...shown, part, position: positionsFor(part)[0]?.id ?? shown.position });
              }}
            >
              {spare.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
          <label>
            In place of
            <select
              value={shown.position}
              onChange={({ currentTarget: { value: position } }) => {
                show({ ...shown, position });
              }}
            >
              <PositionOptions positions={positionsFor(shown.part)} />
            </select>
          </label>
        </div>
      ) : null}
      {shown.as === 'now' ? null : (
        <p class="soft">
          Only this list shows it. A line opens what is fitted now; covers and the next step go by that.
        </p>
      )}
    </div>
  );
}
