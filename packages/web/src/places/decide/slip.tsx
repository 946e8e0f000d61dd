import { type SlipComponent, type SlipLine, slipOf, slipWords } from '@fettle/book';
import { useMemo } from 'preact/hooks';
import { heavy } from '../../state/heavy.ts';
import { assessed, book, job } from '../../state/job.ts';

/** What the machine shop is asked for, part by part, and what came back. */
export function Slip() {
  const now = book.value;
  const { judgements } = assessed.value;
  const { catalogue } = heavy.value;
  const components = useMemo(() => slipOf(now, judgements, catalogue), [now, judgements, catalogue]);
  return (
    <section class="slip">
      <h2>Machine-shop slip</h2>
      {components.length === 0 ? (
        <p>Nothing is decided to be machined yet, so nothing is asked of the shop.</p>
      ) : (
        <Paper />
      )}
      {components.map((component) => (
        <Component key={component.part.id} component={component} />
      ))}
      {components.length > 0 ? <p class="soft">{slipWords.PRACTICE_SOURCE}</p> : null}
    </section>
  );
}

function Paper({ component, name }: { readonly component?: string; readonly name?: string }) {
  const base = `./api/jobs/${job.value ?? ''}/slip.pdf`;
  const own = component === undefined ? '' : `&component=${encodeURIComponent(component)}`;
  return (
    <p class="row">
      {(['a4', 'letter'] as const).map((paper) => (
        <a key={paper} class="button" href={`${base}?paper=${paper}${own}`} target="_blank" rel="noreferrer">
          {name ?? 'The whole slip'}, {paper === 'a4' ? 'A4' : 'Letter'}
        </a>
      ))}
    </p>
  );
}

function Component({ component }: { readonly component: SlipComponent }) {
  const { part, disposition, lines, back } = component;
  return (
    <article>
      <h3>
        {part.name}
        {disposition.body.size === undefined ? '' : `, ${disposition.body.size}`}
      </h3>
      <p>{slipWords.orderedWords(book.value, component)}</p>
      <p>
        <strong>{slipWords.standingWords(component)}</strong>
      </p>
      <ul class="lines">
        {lines.map((line) => (
          <li key={slipWords.lineName(line)}>
            <Line line={line} back={back !== undefined} />
          </li>
        ))}
      </ul>
      {slipWords.practiceParts(component).map(([head, texts]) =>
        texts.length === 0 ? null : (
          <div key={head}>
            <h4>{head}</h4>
            <ul>
              {texts.map((text) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          </div>
        ),
      )}
      <Paper component={part.id} name={part.name} />
    </article>
  );
}

function Line({ line, back }: { readonly line: SlipLine; readonly back: boolean }) {
  return (
    <>
      {slipWords.lineName(line)}: <strong>{slipWords.wantedWords(line)}</strong>
      {line.suits ? <span class="soft"> {slipWords.suitsWords(line)}</span> : null}
      <br />
      <span class="soft">found {slipWords.foundWords(line)}</span>
      {back ? (
        <ul>
          {slipWords.returnedWords(line).map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      ) : null}
    </>
  );
}
