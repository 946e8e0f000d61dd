import { signal } from '@preact/signals';
import { book } from '../../state/job.ts';

/** The grade looked at; undefined is the one filled. */
export const grade = signal<string | undefined>(undefined);

/** The grades of the sheet, where there is a choice. */
export function GradeChoice() {
  const oil = book.value.sheet?.oil;
  const grades = Object.entries(oil?.grades ?? {});
  if (grades.length < 2) return null;
  return (
    <fieldset class="choice">
      <legend>Oil filled</legend>
      {grades.map(([id, { name }]) => (
        <label key={id}>
          <input
            type="radio"
            name="grade"
            checked={(grade.value ?? oil?.fill) === id}
            onChange={() => {
              grade.value = id;
            }}
          />{' '}
          <span>{name}</span>
        </label>
      ))}
    </fieldset>
  );
}
