import { compiledNetwork, solvedNetwork } from '@fettle/core';
import { Project, Workspace } from 'epanet-js';
import { expect, it } from 'vitest';

// A general hydraulic-network solver as outside witness: passive laminar networks with loops, a turning drilling and
// linear leaks. It reckons in feet with rounded constants, g = 32.2 ft/s² among them.
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

interface Circuit {
  readonly title: string;
  readonly pipes: readonly Pipe[];
  /** Linear leaks [m³/(s·Pa)]. */
  readonly leaks: Readonly<Record<string, number>>;
}

/** One loop, and a turning drilling off it. */
const TRIANGLE: Circuit = {
  title: 'a triangle of passages with a turning drilling',
  pipes: [
    { id: 'feed', from: 'S', to: 'A', length: 0.3, bore: 0.012 },
    { id: 'left', from: 'A', to: 'B', length: 0.22, bore: 0.006 },
    { id: 'right', from: 'A', to: 'C', length: 0.15, bore: 0.005 },
    { id: 'across', from: 'B', to: 'C', length: 0.1, bore: 0.004 },
    { id: 'end', from: 'C', to: 'D', length: 0.25, bore: 0.005 },
    { id: 'drilling', from: 'B', to: 'R', length: 0.075, bore: 0.004, turns: true },
  ],
  leaks: { A: 2e-11, B: 3e-11, C: 1.5e-11, D: 4e-11, R: 2.5e-11 },
};

const BAYS = 6;

/** Two galleries side by side, joined at every bulkhead and closed to a ring at both ends: seven loops. */
const LADDER: Circuit = {
  title: 'two galleries joined at every bulkhead',
  pipes: [
    { id: 'feed', from: 'S', to: 'L0', length: 0.2, bore: 0.012 },
    ...Array.from({ length: BAYS }, (_, i): Pipe[] => [
      { id: `left${i}`, from: `L${i}`, to: `L${i + 1}`, length: 0.1 + 0.01 * i, bore: 0.007 },
      { id: `right${i}`, from: `K${i + 1}`, to: `K${i}`, length: 0.11, bore: 0.006 },
    ]).flat(),
    ...Array.from(
      { length: BAYS + 1 },
      (_, i): Pipe => ({
        id: `rung${i}`,
        from: `L${i}`,
        to: `K${i}`,
        length: 0.06 + 0.005 * i,
        bore: i % 2 === 0 ? 0.004 : 0.005,
      }),
    ),
    { id: 'back', from: `K${BAYS}`, to: 'L0', length: 0.8, bore: 0.006 },
    { id: 'drilling', from: 'K3', to: 'R', length: 0.075, bore: 0.004, turns: true },
  ],
  leaks: {
    R: 2.5e-11,
    ...Object.fromEntries(
      Array.from({ length: BAYS + 1 }, (_, i) => [
        [`L${i}`, (1 + (i % 3)) * 0.7e-11],
        [`K${i}`, (1 + (i % 2)) * 1.1e-11],
      ]).flat(),
    ),
  },
};

const toHead = (pressure: number): number => pressure / (RHO * G);

/** The same network in the witness's own file format: metres of oil and litres a second. */
const fileOf = ({ pipes, leaks }: Circuit): string => `
[JUNCTIONS]
${Object.keys(leaks)
  .map((node) => `${node} ${node === 'R' ? -toHead(HEAD) : 0} 0`)
  .join('\n')}
[RESERVOIRS]
S ${toHead(SOURCE)}
[PIPES]
${pipes.map((p) => `${p.id} ${p.from} ${p.to} ${p.length} ${p.bore * 1e3} 0.001 0 Open`).join('\n')}
[EMITTERS]
${Object.entries(leaks)
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

async function witness(circuit: Circuit) {
  const { pipes, leaks } = circuit;
  const workspace = new Workspace();
  await workspace.loadModule();
  const project = new Project(workspace);
  workspace.writeFile('net.inp', fileOf(circuit));
  project.open('net.inp', 'report.rpt', 'out.bin');
  project.openH();
  project.initH(0);
  project.runH();
  const head = (node: string) => project.getNodeValue(project.getNodeIndex(node), EN_HEAD);
  const flow = (pipe: string) => project.getLinkValue(project.getLinkIndex(pipe), EN_FLOW) / 1e3;
  const found = {
    // The lowered elevation is the turning head: what the bearing sees is the height over it.
    pressures: Object.fromEntries(
      Object.keys(leaks).map((node) => [node, head(node) * RHO * G + (node === 'R' ? HEAD : 0)]),
    ),
    flows: Object.fromEntries(pipes.map((p) => [p.id, flow(p.id)])),
  };
  project.closeH();
  project.close();
  return found;
}

it.each([TRIANGLE, LADDER])(
  'a general hydraulic-network solver finds the same pressures and flows in $title',
  async (circuit) => {
    const { pipes, leaks } = circuit;
    const theirs = await witness(circuit);
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
        ...pipes.map(({ turns, ...pipe }) => ({ ...pipe, law: 'passage', ...(turns ? THROW : {}) })),
        ...Object.entries(leaks).map(([node, leak]) => ({
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
    expect(Math.abs(ours.value.pressures.S! / SOURCE - 1)).toBeLessThan(2e-6);
    for (const [node, pressure] of Object.entries(theirs.pressures))
      expect(Math.abs(ours.value.pressures[node]! / pressure - 1), node).toBeLessThan(2e-6);
    for (const [pipe, flow] of Object.entries(theirs.flows)) {
      expect(flow, pipe).not.toBe(0);
      expect(Math.abs(ours.value.flows[pipe]! / flow - 1), pipe).toBeLessThan(2e-6);
    }
  },
);
