// Runs as a thread of its own; nothing imports it.
import { parentPort } from 'node:worker_threads';
import { answered } from './apart.ts';

parentPort?.on('message', async (order) => {
  parentPort?.postMessage(await answered(order));
});
