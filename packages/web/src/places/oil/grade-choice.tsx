import { signal } from '@preact/signals';
import { Choice } from '../../parts/choice.tsx';
import { book } from '../../state/job.ts';

/** The grade looked at; undefined is the one filled. */
export const grade = signal<string | undefined>(undefined);

/** The grades of the sheet, where there is a choice. */
export function GradeChoice() {
  const oil = book.value.sheet?.oil;
  const grades = Object.entries(oil?.grades ?? {});
  if (grades.length < 2) return null;
  return (
    <Choice
      legend="Oil filled"
      name="grade"
      options={grades.map(([id, { name }]) => ({ value: id, word: name }))}
      value={grade.value ?? oil?.fill}
      choose={(id) => {
        grade.value = id;
      }}
    />
  );
}
