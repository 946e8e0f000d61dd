/** A published source, or an honest word that there is none. */
export interface Source {
  readonly title: string;
  readonly edition?: string;
  /** Clause, page, table or equation. */
  readonly where?: string;
  /** How it was checked, and how far it can be trusted: `retrieved`, `memory-certain`, `memory-likely`, `definition`. */
  readonly checked: string;
}

export type Sources = Readonly<Record<string, Source>>;
