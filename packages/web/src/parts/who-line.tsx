import { useState } from 'preact/hooks';
import { setSetting, who } from '../state/desk.ts';

/** Who writes: asked once, shown ever after, changed by a tap. */
export function WhoLine() {
  const [changing, setChanging] = useState(false);
  const [name, setName] = useState(who.value);
  if (who.value !== '' && !changing)
    return (
      <p class="who">
        Written by <strong>{who.value}</strong>{' '}
        <button type="button" class="quiet" onClick={() => setChanging(true)}>
          Somebody else
        </button>
      </p>
    );
  return (
    <form
      class="who asked"
      onSubmit={(event) => {
        event.preventDefault();
        if (name.trim() === '') return;
        void setSetting('who', name.trim().slice(0, 200));
        setChanging(false);
      }}
    >
      <label for="who-writes">Who is writing? The book names its writers.</label>
      <div class="row">
        <input
          id="who-writes"
          value={name}
          maxLength={200}
          autocomplete="name"
          onInput={(event) => setName(event.currentTarget.value)}
        />
        <button type="submit">That is me</button>
      </div>
    </form>
  );
}
