// Half of the trials, in a thread of its own.
import { parentPort, workerData } from 'node:worker_threads';
import { referenceTrials } from './reference-trials.mjs';

parentPort.on('message', ({ first, trials }) => {
  for (const chunk of referenceTrials(workerData.seed, first, trials)) parentPort.postMessage(chunk);
  parentPort.postMessage('done');
});
