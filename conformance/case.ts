import { readFileSync } from 'node:fs';
import { sizeOf, toSi } from './units.ts';

interface Printed {
  readonly value: number | string | readonly (number | string)[];
  readonly unit: string;
  readonly tol_abs?: number;
  readonly tol_rel?: number;
}

/** A published case: inputs, what the source says, and how sure we are of it. */
export interface PublishedCase {
  readonly id: string;
  readonly topic: string;
  readonly inputs: Readonly<Record<string, Printed>>;
  readonly expected: Readonly<Record<string, Printed>>;
  readonly source: string;
  readonly confidence: 'retrieved' | 'memory-certain' | 'memory-likely';
  readonly note?: string;
}

/** Reads inputs in SI (temperatures in degC). */
export class Given {
  private readonly published: PublishedCase;
  constructor(published: PublishedCase) {
    this.published = published;
  }
  get id(): string {
    return this.published.id;
  }
  has(key: string): boolean {
    return key in this.published.inputs;
  }
  private printed(key: string): Printed {
    const printed = this.published.inputs[key];
    if (!printed) throw new Error(`case ${this.published.id} has no input "${key}"`);
    return printed;
  }
  si(key: string): number {
    const { value, unit } = this.printed(key);
    if (typeof value !== 'number') throw new Error(`${this.published.id}.${key} is not a number`);
    return toSi(value, unit);
  }
  list(key: string): number[] {
    const { value, unit } = this.printed(key);
    if (!Array.isArray(value)) throw new Error(`${this.published.id}.${key} is not a list`);
    return value.map((v) => toSi(Number(v), unit));
  }
  /** The quantity as a person would write it. */
  said(key: string): string {
    const { value, unit } = this.printed(key);
    return `${value} ${unit}`;
  }
  /** Rows of plain numbers. */
  table(key: string): number[][] {
    return this.printed(key).value as unknown as number[][];
  }
  text(key: string): string {
    return String(this.printed(key).value);
  }
}

/** What the program answers: per expected key a number in SI (temperatures degC), a list, or a word. */
export type Answers = Readonly<Record<string, number | string | readonly number[]>>;

/** Answers the cases whose id starts with the key; the longest key wins. */
export type Runners = Readonly<Record<string, (given: Given) => Answers>>;

export function publishedCases(file: string): PublishedCase[] {
  return JSON.parse(
    readFileSync(new URL(`./cases/${file}.json`, import.meta.url), 'utf8'),
  ) as PublishedCase[];
}

/** Every expected key missed, in words; an empty list is a pass. Nothing expected may go unanswered. */
export function misses(published: PublishedCase, answers: Answers): string[] {
  const found: string[] = [];
  for (const [key, printed] of Object.entries(published.expected)) {
    const got = answers[key];
    if (got === undefined) {
      found.push(`${key}: no answer`);
      continue;
    }
    const wanted = Array.isArray(printed.value) ? printed.value : [printed.value];
    const given = Array.isArray(got) ? got : [got];
    if (given.length !== wanted.length)
      found.push(`${key}: ${given.length} values, printed ${wanted.length}`);
    wanted.forEach((value, i) => {
      const answer = given[i];
      if (typeof value === 'string') {
        if (answer !== value) found.push(`${key}: got ${answer}, printed ${value}`);
        return;
      }
      const target = toSi(value, printed.unit);
      const scale = printed.unit === 'degC' || printed.unit === 'degF' ? target + 273.15 : target;
      const slack =
        (printed.tol_abs ?? 0) * sizeOf(printed.unit) +
        (printed.tol_rel ?? 0) * Math.abs(scale) +
        // Exact figures still pass through decimal-to-binary conversion.
        1e-12 * Math.abs(target);
      if (!(Math.abs(Number(answer) - target) <= slack))
        found.push(`${key}: got ${answer}, printed ${target} ± ${slack} (SI)`);
    });
  }
  return found;
}
