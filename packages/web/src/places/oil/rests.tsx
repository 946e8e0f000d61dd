import { linear } from '@fettle/core';
import { StrikeEntry } from '../../parts/strike-entry.tsx';
import { book } from '../../state/job.ts';
import { entryWords } from '../../words/entry.ts';
import { operandWords, shown } from '../../words/quantity.ts';
import type { Prediction } from './prediction.ts';

/** What the prediction rests on, with the entries: strike one, and all of it moves. */
export function Rests({ prediction }: { readonly prediction: Prediction }) {
  const now = book.value;
  return (
    <details class="working">
      <summary>Show the working</summary>
      <p>
        Flow through every clearance and passage is in balance at each node of the circuit; each element
        follows its law from the sheet. Clearances enter with their doubt, to first order. Sources of the
        laws: the calculator “oil-network”.
      </p>
      <ul class="lines">
        {prediction.circuit.parameters.map(
          ({ name, characteristic, factor, nominal, measured, trust, entries }) => {
            const read = measured && linear([{ factor: 1 / factor, of: measured }]);
            return (
              <li key={name}>
                <details>
                  <summary>
                    {name.replaceAll('_', ' ')}{' '}
                    <span class="soft">
                      {characteristic.name}
                      {factor === 1 ? '' : ` × ${factor}`}:{' '}
                      {read ? operandWords(characteristic, { kind: 'value', q: read }) : 'not measured'}; as
                      new {shown(characteristic, nominal / factor)} ({trust})
                    </span>
                  </summary>
                  <ul class="lines">
                    {entries.map((id) => {
                      const entry = now.entries.find((one) => one.id === id);
                      return entry ? (
                        <li key={id}>
                          {entryWords(now, entry)} <StrikeEntry entry={id} />
                        </li>
                      ) : null;
                    })}
                  </ul>
                </details>
              </li>
            );
          },
        )}
      </ul>
    </details>
  );
}
