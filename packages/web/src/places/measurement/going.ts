import { go, hashOf } from '../../route.ts';
import { job } from '../../state/job.ts';
import { nextWanted, type Step } from '../../state/steps.ts';
import { placeKey } from '../../words/place.ts';

/** Where a step is on this page. */
export const hashAt = ({ characteristic, place }: Pick<Step, 'characteristic' | 'place'>): string =>
  hashOf(job.value ?? '', 'at', characteristic.id, placeKey(characteristic, place));

/** On to what wants something next; to the bench where nothing does. */
export const goNext = (key: string): void => {
  const next = nextWanted(key);
  go(next ? hashAt(next) : hashOf(job.value ?? '', 'bench'));
};

/** The field that keyboard, wedge and keys write into. */
export const FIELD_ID = 'what-it-says';
