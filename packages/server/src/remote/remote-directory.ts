import { failed, type Outcome, ok } from '@fettle/core';
import { asWriter, type DataDirectory, openDataDirectory, type Store } from '@fettle/store';
import { type Running, runningServer } from '../running.ts';
import { remoteStore } from './remote-store.ts';
import { called, jsonIn, NO_ANSWER } from './server-calls.ts';

/** How long a second writer waits for the first [ms]. */
const WAIT = 5000;

/**
 * The data directory at a path: through the server that holds it, so that its pages hear at once of what is written;
 * opened directly when none does.
 */
export async function directoryAt(path: string): Promise<Outcome<DataDirectory>> {
  const running = await runningServer(path);
  return running ? remoteDirectory(path, running) : openDataDirectory(path);
}

/**
 * A data directory as the server that holds it has it.
 *
 * Who writes its next page still takes turns by the lock in the directory itself, with any process beside. When the
 * server ends meanwhile, the directory is opened directly and what got no answer is done there again: everything asked
 * of a store may be asked twice.
 */
export async function remoteDirectory(
  path: string,
  running: Pick<Running, 'address' | 'secret'>,
): Promise<Outcome<DataDirectory>> {
  const answer = await called(running, 'GET', 'api/directory');
  if (!answer.ok)
    return answer.issues[0]?.code === NO_ANSWER && (await isOver(path)) ? openDataDirectory(path) : answer;
  if (!answer.value) return failed(otherServer(running.address));
  const said = await jsonIn<{ path: string; device: string }>(answer.value, running.address);
  if (!said.ok) return said;
  const remote = remoteStore(running);
  let direct: DataDirectory | undefined;
  // What is too large for one request goes into the directory beside the server, which looks for such by itself.
  const isForDirect = async (code: string | undefined): Promise<boolean> =>
    code === 'request/too-large' || (code === NO_ANSWER && (await isOver(path)));
  const asked = async <T>(work: (store: Store) => Promise<Outcome<T>>): Promise<Outcome<T>> => {
    if (!direct) {
      const outcome = await work(remote);
      if (outcome.ok || !(await isForDirect(outcome.issues[0]?.code))) return outcome;
      const opened = await openDataDirectory(path);
      if (!opened.ok) return opened;
      direct = opened.value;
    }
    return work(direct.store);
  };
  return ok({
    path: said.value.path,
    device: said.value.device,
    store: {
      jobs: () => asked((store) => store.jobs()),
      append: (parcel) => asked((store) => store.append(parcel)),
      entries: (job, from) => asked((store) => store.entries(job, from)),
      putSheet: (hash, json) => asked((store) => store.putSheet(hash, json)),
      sheet: (hash) => asked((store) => store.sheet(hash)),
      putPhoto: (bytes, media) => asked((store) => store.putPhoto(bytes, media)),
      photo: (hash) => asked((store) => store.photo(hash)),
      close: async () => direct?.close(),
    },
    writing: (work) => asWriter(said.value.path, WAIT, work),
    close: async () => direct?.close(),
  });
}

const isOver = async (path: string): Promise<boolean> => (await runningServer(path)) === undefined;

const otherServer = (address: string) => ({
  code: 'server/other-server',
  at: address,
  got: 'a server that knows no data directory',
  wanted: 'the server of this data directory',
  message: `${address} is answered by another program. Stop the server of this data directory and start it again.`,
});
