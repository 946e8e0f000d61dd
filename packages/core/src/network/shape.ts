import type * as z from 'zod';
import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import type { Law } from './element.ts';
import { LAWS, type LawName } from './laws.ts';
import { issue, shown } from './read.ts';
import { type ElementInput, type NetworkInput, networkSchema, SUMP } from './schema.ts';

function fromZod(error: z.ZodError, input: unknown): Issue[] {
  return error.issues.map((found) => {
    const at = found.path.map((key) => `/${String(key)}`).join('');
    const known = found.code === 'custom' ? (found.params?.issue as Issue | undefined) : undefined;
    if (known) return { ...known, at };
    if (found.code === 'unrecognized_keys')
      return issue(
        'unknown-key',
        `${at}/${found.keys[0]}`,
        found.keys.join(', '),
        'a key of the schema',
        `A network has no "${shown(found.keys[0])}" here. Take it out, or correct its name.`,
      );
    let got: unknown = input;
    for (const key of found.path) got = (got as Record<PropertyKey, unknown> | undefined)?.[key];
    const wanted = found.code === 'invalid_type' ? found.expected : found.message;
    return issue(
      'shape',
      at,
      got,
      String(wanted),
      'This part of the network is missing or of the wrong kind.',
    );
  });
}

/** The input as a network in outline, or what keeps it from being one. */
export function outlined(input: unknown): Outcome<NetworkInput> {
  const parsed = networkSchema.safeParse(input);
  return parsed.success ? ok(parsed.data) : failed(...fromZod(parsed.error, input));
}

export interface Graph {
  readonly nodes: readonly string[];
  /** Node numbers of each element's ends, −1 for the sump. */
  readonly ends: readonly (readonly [number, number])[];
}

/** Nodes and the ends of the elements; every node must reach the sump, and something must feed it. */
export function graphOf(spec: NetworkInput): Outcome<Graph> {
  const issues: Issue[] = [];
  const numbers = new Map<string, number>();
  const listed = spec.nodes !== undefined;
  (spec.nodes ?? []).forEach((node, i) => {
    if (node === SUMP || numbers.has(node))
      issues.push(
        issue(
          'duplicate-node',
          `/nodes/${i}`,
          node,
          `a name of its own; "${SUMP}" is always there`,
          'Take it out, or rename it.',
        ),
      );
    else numbers.set(node, numbers.size);
  });
  const numberOf = (node: string, at: string): number => {
    if (node === SUMP) return -1;
    const known = numbers.get(node);
    if (known !== undefined) return known;
    if (listed) {
      issues.push(
        issue(
          'unknown-node',
          at,
          node,
          [SUMP, ...numbers.keys()].join(', '),
          `No node is called "${node}". Add it to nodes, or correct the name.`,
        ),
      );
      return -1;
    }
    numbers.set(node, numbers.size);
    return numbers.size - 1;
  };

  const ids = new Set<string>();
  const ends = spec.elements.map((element, i): [number, number] => {
    const at = `/elements/${i}`;
    if (ids.has(element.id))
      issues.push(
        issue(
          'duplicate-id',
          `${at}/id`,
          element.id,
          'an id of its own',
          `Two elements are called "${element.id}". Rename one.`,
        ),
      );
    ids.add(element.id);
    if (lawOf(element)?.aside) {
      for (const key of ['from', 'to'] as const)
        if (element[key] !== undefined)
          issues.push(
            issue(
              'aside',
              `${at}/${key}`,
              element[key],
              'nothing: it stands beside the circuit',
              `A ${element.law} joins no nodes. Take "${key}" out.`,
            ),
          );
      return [-1, -1];
    }
    const pump = lawOf(element)?.pump === true;
    if (pump ? element.to === undefined : element.from === undefined)
      issues.push(
        issue(
          'missing',
          `${at}/${pump ? 'to' : 'from'}`,
          undefined,
          'the name of a node',
          pump ? 'Say which node the pump delivers to.' : 'Say at which node the element begins.',
        ),
      );
    const pair: [number, number] = [
      numberOf(element.from ?? SUMP, `${at}/from`),
      numberOf(element.to ?? SUMP, `${at}/to`),
    ];
    if (pair[0] === pair[1] && (element.from ?? SUMP) === (element.to ?? SUMP))
      issues.push(
        issue(
          'loop',
          at,
          element.from ?? SUMP,
          'two different ends',
          'Both ends of the element lie on one node. Move one of them.',
        ),
      );
    return pair;
  });
  const nodes = [...numbers.keys()];
  if (spec.gauge !== undefined && !numbers.has(spec.gauge))
    issues.push(
      issue('unknown-node', '/gauge', spec.gauge, nodes.join(', '), 'The gauge must read one of the nodes.'),
    );
  if (issues.length === 0) issues.push(...adrift(nodes, ends));
  return issues.length > 0 ? failed(...issues) : ok({ nodes, ends });
}

const lawOf = (element: ElementInput): Law | undefined =>
  Object.hasOwn(LAWS, element.law) ? LAWS[element.law as LawName] : undefined;

/** Nodes that no chain of elements joins to the sump: their pressure would be anybody's guess. */
function adrift(nodes: readonly string[], ends: readonly (readonly [number, number])[]): Issue[] {
  const reached = new Set<number>([-1]);
  for (let grew = true; grew; ) {
    grew = false;
    for (const [a, b] of ends) {
      if (reached.has(a) === reached.has(b)) continue;
      reached.add(a).add(b);
      grew = true;
    }
  }
  return nodes.flatMap((node, i) =>
    reached.has(i)
      ? []
      : [
          issue(
            'disconnected',
            `/nodes/${i}`,
            node,
            'a way to the sump',
            `Nothing joins "${node}" to the sump. Connect it, or leave it out.`,
          ),
        ],
  );
}
