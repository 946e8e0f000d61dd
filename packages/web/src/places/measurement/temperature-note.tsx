import { type Assessed, asFittedNow, asRead, temperatureNote } from '@fettle/book';
import { heavy } from '../../state/heavy.ts';
import { book } from '../../state/job.ts';

/** What the temperature of the part has to do with what stands above; nothing where none was said. */
export function TemperatureNote({ judgement }: { readonly judgement: Assessed }) {
  const now = book.value;
  const cold = asRead(now, asFittedNow(now), heavy.value.catalogue, judgement);
  return cold ? <p class="whole">{temperatureNote(judgement, cold)}</p> : null;
}
