import { Circuit } from './circuit.tsx';
import { DiagnosisSection } from './diagnosis.tsx';
import { FirstStart } from './first-start.tsx';
import { Flows } from './flows.tsx';
import { Plan } from './plan.tsx';
import type { Prediction } from './prediction.ts';

/** What follows from the prediction and need not be there with the first figure; the stop rules stand without it. */
export function Further({ prediction }: { readonly prediction?: Prediction | undefined }) {
  return (
    <>
      {prediction ? (
        <>
          <div class="played">
            <Flows prediction={prediction} />
            <Circuit prediction={prediction} />
          </div>
          <Plan />
        </>
      ) : null}
      <FirstStart circuit={prediction?.circuit} />
      {prediction ? <DiagnosisSection /> : null}
    </>
  );
}
