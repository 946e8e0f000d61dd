import type { Issue } from '@fettle/core';
import type { OpenAPIHono, z } from '@hono/zod-openapi';
import type { Context } from 'hono';
import { Refusal } from '../problem.ts';
import { problem } from '../schemas.ts';

type Schema =
  | z.ZodType
  | { readonly $ref: string }
  | { readonly type: string; readonly format?: string; readonly items?: { readonly $ref: string } };
type Content = Readonly<Record<string, Schema>>;
type Empty = Record<string, never>;

/** One endpoint: what the contract says of it and what answers it, in one place. */
export interface Documented<P, Q> {
  readonly method: 'get' | 'post' | 'put' | 'delete';
  /** As in OpenAPI: `/api/jobs/{id}`. */
  readonly path: string;
  readonly summary: string;
  readonly params?: z.ZodType<P> & z.ZodObject;
  readonly query?: z.ZodType<Q> & z.ZodObject;
  readonly body?: Content;
  readonly answers: Readonly<Record<number, { readonly says: string; readonly content?: Content }>>;
  readonly handler: (c: Context, said: { params: P; query: Q }) => Response | Promise<Response>;
}

/** Schemas of book's, by their component. */
export const SPEC_SHEET_REF = { $ref: '#/components/schemas/SpecSheet' } as const;
export const ENTRIES = { type: 'array', items: { $ref: '#/components/schemas/Entry' } } as const;
export const BYTES = { type: 'string', format: 'binary' } as const;

/** Registers an endpoint with the app and with its contract. */
export function documented<P = Empty, Q = Empty>(app: OpenAPIHono, route: Documented<P, Q>): void {
  const content = (of: Content) =>
    Object.fromEntries(Object.entries(of).map(([media, schema]) => [media, { schema }]));
  app.openAPIRegistry.registerPath({
    method: route.method,
    path: route.path,
    summary: route.summary,
    request: {
      ...(route.params && { params: route.params }),
      ...(route.query && { query: route.query }),
      ...(route.body && { body: { required: true, content: content(route.body) } }),
    },
    responses: {
      ...Object.fromEntries(
        Object.entries(route.answers).map(([status, { says, content: of }]) => [
          status,
          { description: says, ...(of && { content: content(of) }) },
        ]),
      ),
      default: {
        description: 'What went wrong, by RFC 9457',
        content: { 'application/problem+json': { schema: problem } },
      },
    },
  } as Parameters<typeof app.openAPIRegistry.registerPath>[0]);
  const path = route.path.replace(/\{(\w+)\}/g, ':$1');
  app.on(route.method.toUpperCase(), path, (c) =>
    route.handler(c, {
      params: route.params ? read(route.params, c.req.param()) : ({} as P),
      query: route.query ? read(route.query, c.req.query()) : ({} as Q),
    }),
  );
}

/** A value by its schema, or 400 with every fault. */
export function read<T>(schema: z.ZodType<T>, value: unknown): T {
  const outcome = schema.safeParse(value);
  if (outcome.success) return outcome.data;
  throw new Refusal(400, outcome.error.issues.slice(0, 20).map(issueOf(value)));
}

const issueOf =
  (value: unknown) =>
  (issue: z.core.$ZodIssue): Issue => {
    const at = issue.path.map((key) => `/${String(key)}`).join('');
    const inside = issue.path.reduce<unknown>(
      (found, key) => (found as Record<PropertyKey, unknown> | null | undefined)?.[key],
      value,
    );
    const got = inside === undefined ? 'nothing' : JSON.stringify(inside).slice(0, 120);
    return {
      code: 'request/malformed',
      at,
      got,
      wanted: issue.code === 'unrecognized_keys' ? `no key ${issue.keys.join(', ')}` : issue.message,
      message: `${at || 'The whole'}: got ${got}. ${issue.message}. Correct it and send it again.`,
    };
  };
