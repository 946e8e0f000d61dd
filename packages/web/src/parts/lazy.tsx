import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';

interface Fetched<P> {
  /** The same function each time: another one fetches, and begins, anew. */
  readonly load: () => Promise<ComponentType<P>>;
  /** What the part is given, which may change under it. */
  readonly given: P;
}

/** A part of the page that is fetched when it is first wanted. */
export function Lazy<P extends object>({ load, given }: Fetched<P>) {
  const [Part, setPart] = useState<ComponentType<P> | undefined>(undefined);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    let wanted = true;
    load().then(
      (part) => wanted && setPart(() => part),
      () => wanted && setFailed(true),
    );
    return () => {
      wanted = false;
    };
  }, [load]);
  if (failed)
    return (
      <div class="waiting-part">
        <p class="issue">
          This place could not be fetched and is not kept in this browser yet. It needs the server once; what
          you entered is safe.
        </p>
      </div>
    );
  return Part ? <Part {...given} /> : <div class="waiting-part" aria-busy="true" />;
}
