// All checks by name. Each is `{ name, faults, notes }`: any fault fails it, notes are only said.
import { arrowFaults } from './arrows.mjs';
import { houseAt } from './house.mjs';
import { longFiles } from './lengths.mjs';
import { linkFaults } from './links.mjs';
import { nameFaults } from './names.mjs';
import { paramNameFaults } from './param-names.mjs';
import { pureTypeFaults } from './pure-types.mjs';
import { sourceKeyFaults } from './source-keys.mjs';
import { styleFaults, typeFaults, unusedFaults } from './tools.mjs';

const CHECKS = [
  { name: 'types (tsc -b)', faults: ({ root }) => typeFaults(root) },
  { name: 'format, lint, no import cycles (biome)', faults: ({ root }) => styleFaults(root) },
  { name: 'nothing unused (knip)', faults: ({ root }) => unusedFaults(root) },
  { name: 'arrows between packages', faults: arrowFaults },
  { name: 'pure packages know neither Node nor DOM', faults: pureTypeFaults },
  { name: 'files named for what they hold', faults: nameFaults },
  { name: 'sources named in doc comments exist', faults: sourceKeyFaults },
  { name: 'parameters named in doc comments exist', faults: paramNameFaults },
  { name: 'links between documents', faults: linkFaults },
  { name: 'length of files', faults: () => [], notes: longFiles },
];

async function carriedOut({ name, faults, notes }, house) {
  try {
    return { name, faults: await faults(house), notes: notes?.(house) ?? [] };
  } catch (error) {
    return { name, faults: [`the check itself failed: ${error?.stack ?? error}`], notes: [] };
  }
}

/** Runs every check on the tree at `root` and tells each result in the order of the list. */
export async function checked(root, tell) {
  let house;
  try {
    house = houseAt(root);
  } catch (error) {
    const unreadable = { name: 'the tree can be read', faults: [String(error)], notes: [] };
    tell(unreadable);
    return [unreadable];
  }
  const running = CHECKS.map((check) => carriedOut(check, house));
  const results = [];
  for (const result of running) {
    results.push(await result);
    tell(results.at(-1));
  }
  return results;
}

/** One line `ok name`, or its faults; notes follow either. */
export function reportText({ name, faults, notes }) {
  const head = faults.length === 0 ? `ok     ${name}` : `FAULT  ${name}: ${faults.length} found`;
  return [head, ...faults.map((fault) => `  ${fault}`), ...notes.map((note) => `  note: ${note}`)].join('\n');
}
