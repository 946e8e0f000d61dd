import { Choice } from '../../parts/choice.tsx';
import { setSetting, settings } from '../../state/desk.ts';
import { job } from '../../state/job.ts';

const CONFIDENCES = [0.8, 0.9, 0.95, 0.99] as const;
const USUAL = 0.95;

const key = (): string => `confidence ${job.value ?? ''}`;

/** How sure the plan has to be of every pressure the sheet wants: a choice of this browser for this job. */
export function confidence(): number {
  const said = settings.value[key()];
  return CONFIDENCES.find((one) => one === said) ?? USUAL;
}

export function ConfidenceChoice() {
  const chosen = confidence();
  return (
    <Choice
      legend="How sure of the pressures"
      name="confidence"
      options={CONFIDENCES.map((one) => ({ value: one, word: `${Math.round(one * 100)} %` }))}
      value={chosen}
      choose={(one) => setSetting(key(), one)}
    />
  );
}
