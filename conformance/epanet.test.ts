import { compiledNetwork, solvedNetwork } from '@fettle/core';
import { Project, Workspace } from 'epanet-js';
import { expect, it } from 'vitest';

// A general hydraulic-network solver as outside witness: a passive laminar network with a loop, a turning
// drilling and linear leaks. It reckons in feet with rounded constants, g = 32.2 ft/s² among them.
/** Codes of the witness's toolkit: its package names them, but its types do not resolve here. */
const EN_HEAD = 10;
const EN_FLOW = 8;
const G = 32.2 * 0.3048;
const RHO = 860;
const NU = 40e-6;
const MU = RHO * NU;
const SOURCE = 3e5;
const SPEED = 180;
const THROW = { inner_radius: 0.032, outer_radius: 0.055 } as const;
const HEAD = 0.5 * RHO * SPEED ** 2 * (THROW.outer_radius ** 2 - THROW.inner_radius ** 2);

interface Pipe {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly length: number;
  readonly bore: number;
  readonly turns?: true;
}

const PIPES: readonly Pipe[] = [
  { id: 'feed', from: 'S', to: 'A', length: 0.3, bore: 0.012 },
  { id: 'left', from: 'A', to: 'B', length: 0.22, bore: 0.006 },
  { id: 'right', from: 'A', to: 'C', length: 0.15, bore: 0.005 },
  { id: 'across', from: 'B', to: 'C', length: 0.1, bore: 0.004 },
  { id: 'end', from: 'C', to: 'D', length: 0.25, bore: 0.005 },
  { id: 'drilling', from: 'B', to: 'R', length: 0.075, bore: 0.004, turns: true },
];

/** Linear leaks [m³/(s·Pa)]. */
const LEAKS: Readonly<Record<string, number>> = { A: 2e-11, B: 3e-11, C: 1.5e-11, D: 4e-11, R: 2.5e-11 };

const toHead = (pressure: number): number => pressure / (RHO * G);

/** The same network in the witness's own file format: metres of oil and litres a second. */
const FILE = `
[JUNCTIONS]
${Object.keys(LEAKS)
  .map((node) => `${node} ${node === 'R' ? -toHead(HEAD) : 0} 0`)
  .join('\n')}
[RESERVOIRS]
S ${toHead(SOURCE)}
[PIPES]
${PIPES.map((p) => `${p.id} ${p.from} ${p.to} ${p.length} ${p.bore * 1e3} 0.001 0 Open`).join('\n')}
[EMITTERS]
${Object.entries(LEAKS)
  .map(([node, leak]) => `${node} ${leak * RHO * G * 1e3}`)
  .join('\n')}
[OPTIONS]
UNITS LPS
HEADLOSS D-W
VISCOSITY ${NU}
EMITTER EXPONENT 1
ACCURACY 0.00001
TRIALS 200
[TIMES]
DURATION 0
[END]
`;

async function witness() {
  const workspace = new Workspace();
  await workspace.loadModule();
  const project = new Project(workspace);
  workspace.writeFile('net.inp', FILE);
  project.open('net.inp', 'report.rpt', 'out.bin');
  project.openH();
  project.initH(0);
  project.runH();
  const head = (node: string) => project.getNodeValue(project.getNodeIndex(node), EN_HEAD);
  const flow = (pipe: string) => project.getLinkValue(project.getLinkIndex(pipe), EN_FLOW) / 1e3;
  const found = {
    // The lowered elevation is the turning head: what the bearing sees is the height over it.
    pressures: Object.fromEntries(
      Object.keys(LEAKS).map((node) => [node, head(node) * RHO * G + (node === 'R' ? HEAD : 0)]),
    ),
    flows: Object.fromEntries(PIPES.map((p) => [p.id, flow(p.id)])),
  };
  project.closeH();
  project.close();
  return found;
}

it('a general hydraulic-network solver finds the same pressures and flows in a passive laminar network', async () => {
  const theirs = await witness();
  // The witness holds the pressure of the source and finds its flow; ours is given that flow and must find the pressure.
  const network = compiledNetwork({
    fluid: { dynamic_viscosity: MU, density: RHO },
    elements: [
      {
        id: 'pump',
        law: 'gear-pump',
        to: 'S',
        displacement: (theirs.flows.feed! * 2 * Math.PI) / SPEED,
        speed_ratio: 1,
      },
      ...PIPES.map(({ turns, ...pipe }) => ({ ...pipe, law: 'passage', ...(turns ? THROW : {}) })),
      ...Object.entries(LEAKS).map(([node, leak]) => ({
        id: `leak-${node}`,
        law: 'laminar-leak',
        from: node,
        strength: leak * MU,
      })),
    ],
  });
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  const ours = solvedNetwork(network.value, { speed: SPEED, temperature: 350 });
  if (!ours.ok) throw new Error(JSON.stringify(ours.issues));
  expect(theirs.flows.across).not.toBe(0);
  expect(Math.abs(ours.value.pressures.S! / SOURCE - 1)).toBeLessThan(2e-6);
  for (const [node, pressure] of Object.entries(theirs.pressures))
    expect(Math.abs(ours.value.pressures[node]! / pressure - 1), node).toBeLessThan(2e-6);
  for (const [pipe, flow] of Object.entries(theirs.flows))
    expect(Math.abs(ours.value.flows[pipe]! / flow - 1), pipe).toBeLessThan(2e-6);
});
