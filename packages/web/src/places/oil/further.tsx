import { Circuit } from './circuit.tsx';
import { Plan } from './plan.tsx';
import type { Prediction } from './prediction.ts';

/** What follows from the prediction and need not be there with the first figure. */
export function Further({ prediction }: { readonly prediction: Prediction }) {
  return (
    <>
      <Circuit prediction={prediction} />
      <Plan />
    </>
  );
}
