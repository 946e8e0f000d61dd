/**
 * One step of the schema. It only adds, and is never edited once released: an old copy of a job must open.
 * Its file is named `<number>-<name>.ts`.
 */
export interface Migration {
  readonly number: number;
  readonly name: string;
  readonly statements: readonly string[];
}
