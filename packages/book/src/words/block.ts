/** A piece of text that page, paper and terminal each set in their own way. */
export interface Block {
  readonly title: string;
  /** What is to be known first. */
  readonly lines: readonly string[];
  readonly table?: { readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] };
  /** What it rests on, and what is assumed. */
  readonly notes: readonly string[];
}
