import type { OpenAPIHono } from '@hono/zod-openapi';
import type { Context } from 'hono';
import { Refusal } from './problem.ts';

/** 405 where another method is answered, 404 otherwise. */
export function nothingThere(app: OpenAPIHono, c: Context): Refusal {
  const { method } = c.req;
  const path = c.req.path.slice(0, 200);
  const allowed = new Set(
    app.routes.filter((route) => route.path !== '*' && matches(route.path, c.req.path)).map((r) => r.method),
  );
  allowed.delete('ALL');
  if (allowed.size > 0 || !['GET', 'HEAD'].includes(method)) {
    const wanted = [...allowed].join(', ') || 'GET';
    return new Refusal(
      405,
      [
        {
          code: 'request/method',
          at: path,
          got: method,
          wanted,
          message: `${path} does not take ${method}, only ${wanted}. See /api/openapi.json.`,
        },
      ],
      { Allow: wanted },
    );
  }
  return new Refusal(404, [
    {
      code: 'request/unknown-path',
      at: path,
      got: path,
      wanted: 'a path of /api/openapi.json, or of the page',
      message: `There is nothing at ${path}. See /api/openapi.json for what there is.`,
    },
  ]);
}

const matches = (route: string, path: string): boolean => {
  const wanted = route.split('/');
  const got = path.split('/');
  return wanted.length === got.length && wanted.every((part, i) => part.startsWith(':') || part === got[i]);
};
