import { useState } from 'preact/hooks';
import { strike } from '../state/job.ts';

/** Strikes an entry as one strikes a line in a paper book: with a reason, and it stays legible. */
export function StrikeEntry({ entry }: { readonly entry: string }) {
  const [asking, setAsking] = useState(false);
  const [why, setWhy] = useState('');
  const [said, setSaid] = useState('');
  if (!asking)
    return (
      <button type="button" class="quiet" onClick={() => setAsking(true)}>
        Strike
      </button>
    );
  return (
    <form
      class="strike"
      onSubmit={async (event) => {
        event.preventDefault();
        if (why.trim() === '') {
          setSaid('Say why: a struck line without a reason helps nobody.');
          return;
        }
        const struck = await strike(entry, why.trim());
        if (struck.ok) setAsking(false);
        else setSaid(struck.issues[0]?.message ?? '');
      }}
    >
      <label for={`why-${entry}`}>Why is it struck?</label>
      <div class="row">
        <input id={`why-${entry}`} value={why} onInput={(event) => setWhy(event.currentTarget.value)} />
        <button type="submit">Strike it</button>
        <button type="button" class="quiet" onClick={() => setAsking(false)}>
          Leave it
        </button>
      </div>
      {said === '' ? null : <p class="issue">{said}</p>}
    </form>
  );
}
