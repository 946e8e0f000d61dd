import { type TimeLine, timelineWords } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { heading, table, wrapped } from './table.ts';

const WIDTH = 106;
const set = (text: string, indent = '  '): string[] =>
  text === '' ? [] : wrapped(text, WIDTH - indent.length, '  ').map((line) => indent + line);

/** The time line: the answer first, then the picture, the tasks, and what the chance rests on. */
export function timeLineLines(
  line: TimeLine,
  because: Issue | undefined,
  picture: readonly string[],
): string[] {
  const shown = line.tasks.filter(({ times }) => times.latest > 0);
  const atOnce = line.tasks.filter(({ times }) => times.latest === 0);
  return [
    ...timelineWords.dateWords(line).flatMap((words) => set(words, '')),
    ...set(timelineWords.criticalWords(line), ''),
    ...(because ? set(because.message, '') : []),
    ...line.problems.flatMap(({ message }) => set(message, '')),
    '',
    ...picture,
    ...(shown.length > 0
      ? [
          ...heading('Tasks'),
          ...table(
            shown.map((task) => [
              task.name,
              timelineWords.takesWords(task),
              timelineWords.readyWords(line, task.id),
              timelineWords.criticalShare(line, task.id),
            ]),
            '  ',
          ),
        ]
      : []),
    ...(atOnce.length > 0
      ? set(
          `No time to wait for: ${atOnce.map(({ name, state }) => `${name}${state === 'over' ? ' (here or over)' : ''}`).join(', ')}.`,
        )
      : []),
    ...heading('On what this rests'),
    ...timelineWords.chanceRests(line).flatMap((words) => set(words)),
  ];
}
