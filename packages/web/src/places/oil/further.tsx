import { FoldOut } from '../../parts/fold-out.tsx';
import { Circuit } from './circuit.tsx';
import { DiagnosisSection } from './diagnosis.tsx';
import { Films } from './film.tsx';
import { FirstStart } from './first-start.tsx';
import { Flows } from './flows.tsx';
import { WhatNarrows } from './narrowing.tsx';
import { Plan } from './plan.tsx';
import type { Prediction } from './prediction.ts';
import { SpeedTemperature } from './speed-temperature.tsx';

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
          <FoldOut summary="Over speed and temperature">
            {() => <SpeedTemperature prediction={prediction} />}
          </FoldOut>
          <FoldOut summary="The films in the bearings">{() => <Films prediction={prediction} />}</FoldOut>
          <Plan circuit={prediction.circuit} />
          <FoldOut summary="What would narrow the band">
            {() => <WhatNarrows prediction={prediction} />}
          </FoldOut>
        </>
      ) : null}
      <FirstStart circuit={prediction?.circuit} />
      {prediction ? <DiagnosisSection /> : null}
    </>
  );
}
