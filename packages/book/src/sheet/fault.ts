import { type Issue, parseQuantity, type QuantityKind } from '@fettle/core';
import { pointerOf } from '../issues-of-zod.ts';

type Path = readonly (string | number)[];

/** Collects what is wrong with a sheet, so that a person sees all of it at once. */
export class Faults {
  readonly issues: Issue[] = [];

  add(code: string, path: Path, got: string, wanted: string, message: string): void {
    this.issues.push({ code: `sheet/${code}`, at: pointerOf(path), got, wanted, message });
  }

  /** The SI value of a quantity; undefined when it is absent or cannot be read, which is then noted. */
  quantity(text: string | undefined, kind: QuantityKind, path: Path, subject: string): number | undefined {
    if (text === undefined) return undefined;
    const read = parseQuantity(text, kind);
    if (read.ok) return read.value.value;
    for (const issue of read.issues)
      this.issues.push({ ...issue, at: pointerOf(path), message: `${subject}: ${issue.message}` });
    return undefined;
  }

  /** Notes every id that was used before. */
  unique(ids: readonly string[], pathOf: (index: number) => Path, what: string): void {
    const first = new Map<string, number>();
    for (const [index, id] of ids.entries()) {
      const before = first.get(id);
      if (before === undefined) first.set(id, index);
      else
        this.add(
          'duplicate-id',
          pathOf(index),
          id,
          `a ${what} id used once`,
          `The ${what} id "${id}" is used twice, first at ${pointerOf(pathOf(before))}. Rename one of them.`,
        );
    }
  }
}

export const listed = (words: Iterable<string>): string => [...words].join(', ') || 'none';
