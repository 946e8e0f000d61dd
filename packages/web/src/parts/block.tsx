import type { Block } from '@fettle/book';

/** A block of words as the page sets it; what a table says stands in it once more than once a row, so it may scroll. */
export function BlockShown({ block }: { readonly block: Block }) {
  const { title, lines, table, notes } = block;
  const [first, ...rest] = lines;
  return (
    <article class="block">
      <h3>{title}</h3>
      {first === undefined ? null : <p class="first">{first}</p>}
      {rest.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {table ? (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard.
        <section class="scroll" tabIndex={0} aria-label={title}>
          <table class="said">
            <thead>
              <tr>
                {table.head.map((cell) => (
                  <th key={cell} scope="col">
                    {cell}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {table.rows.map((row) => (
                <tr key={row.join('|')}>
                  {row.map((cell, i) =>
                    i === 0 ? (
                      <th key={table.head[i]} scope="row">
                        {cell}
                      </th>
                    ) : (
                      <td key={table.head[i]}>{cell}</td>
                    ),
                  )}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ) : null}
      {notes.length > 0 ? (
        <details>
          <summary>Where this comes from</summary>
          {notes.map((note) => (
            <p key={note} class="soft">
              {note}
            </p>
          ))}
        </details>
      ) : null}
    </article>
  );
}
