import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import type { Answer } from '../../ledger/server.ts';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { desk } from '../../state/desk.ts';
import { book, write } from '../../state/job.ts';
import { whenWords } from '../../words/entry.ts';
import { pictureOf } from './picture.ts';

/** What was photographed, and another. */
export function Photos() {
  const { photos, struck } = book.value;
  const standing = photos.filter(({ entry }) => !struck.has(entry.id));
  return (
    <>
      <h2>Photos</h2>
      {standing.length === 0 ? <p>None yet.</p> : null}
      <ul class="photos">
        {standing.map(({ entry, body }) => (
          <li key={entry.id}>
            <a href={`./api/photos/${body.sha256}`} target="_blank" rel="noreferrer">
              <img
                src={`./api/photos/${body.sha256}`}
                alt={body.caption ?? 'A photo without a caption'}
                loading="lazy"
              />
            </a>
            {body.caption}{' '}
            <span class="soft">
              {entry.who}, {whenWords(entry.at)}
            </span>
          </li>
        ))}
      </ul>
      <NewPhoto />
    </>
  );
}

const issue = (code: string, got: string, wanted: string, message: string): Issue => ({
  code,
  at: 'photo',
  got,
  wanted,
  message,
});

function sendingIssues(answer: Exclude<Answer<unknown>, { state: 'done' }>): readonly Issue[] {
  switch (answer.state) {
    case 'refused':
      return answer.issues;
    case 'unable':
      return [issue('photo/not-kept', 'no room for it', 'a server that keeps it', answer.words)];
    case 'stranger':
      return [
        issue(
          'photo/not-paired',
          'a device that is not paired',
          'a paired device',
          'This device is not paired, so the photo was not kept. Pair it at the desk, then press again.',
        ),
      ];
    case 'offline':
      return [
        issue(
          'photo/no-server',
          'no answer',
          'the server',
          'A photo is kept by the server, and none answers. It is still chosen here: press again when the server is back, or keep it in the camera until then.',
        ),
      ];
  }
}

function NewPhoto() {
  const [file, setFile] = useState<File | undefined>(undefined);
  const [caption, setCaption] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [busy, setBusy] = useState(false);
  const [round, setRound] = useState(0);
  const keep = async (): Promise<readonly Issue[]> => {
    if (!file)
      return [issue('photo/none', 'nothing', 'a picture', 'No picture is chosen yet. Take or choose one.')];
    const picture = await pictureOf(file);
    if (!picture)
      return [
        issue(
          'photo/unreadable',
          file.name,
          'a picture this browser can show',
          `This browser cannot show "${file.name}" as a picture. Save it as JPEG or PNG and choose it again.`,
        ),
      ];
    const answer = await desk().server.sendPhoto(picture.hash, picture.blob);
    if (answer.state !== 'done') return sendingIssues(answer);
    const said = caption.trim();
    const entries = await write([
      {
        kind: 'photo',
        body: { sha256: picture.hash, media: picture.blob.type, ...(said !== '' && { caption: said }) },
      },
    ]);
    if (!entries.ok) return entries.issues;
    setFile(undefined);
    setCaption('');
    // A new field: the old one would keep the file's name.
    setRound(round + 1);
    return [];
  };
  return (
    <form
      class="form"
      onSubmit={async (event) => {
        event.preventDefault();
        if (busy) return;
        setBusy(true);
        setIssues(await keep());
        setBusy(false);
      }}
    >
      <label>
        Another photo
        <input
          key={round}
          type="file"
          accept="image/*"
          onChange={(event) => setFile(event.currentTarget.files?.[0])}
        />
        <small>
          It is made smaller, and what the camera wrote into it, such as where it was taken, is left out.
        </small>
      </label>
      <label>
        What it shows
        <input value={caption} maxLength={500} onInput={(event) => setCaption(event.currentTarget.value)} />
      </label>
      <IssueLines issues={issues} />
      <div>
        <button type="submit" aria-disabled={busy}>
          {busy ? 'Being kept …' : 'Keep it'}
        </button>
      </div>
    </form>
  );
}
