import type { Issue } from '@fettle/core';
import type * as z from 'zod';

type ZodIssue = z.core.$ZodIssue;

/** JSON pointer (RFC 6901) of a path. */
export const pointerOf = (path: readonly PropertyKey[]): string =>
  path.map((key) => `/${String(key).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');

const depthOf = (issues: readonly ZodIssue[]): number =>
  Math.min(...issues.map((issue) => issue.path.length));

/**
 * Of a union, the issues of the one alternative that was evidently meant: the one whose faults lie deepest.
 * When none was, the union itself is the issue.
 */
function meant(issue: ZodIssue): ZodIssue[] {
  if (issue.code !== 'invalid_union') return [issue];
  const branches = issue.errors
    .filter((branch) => branch.length > 0)
    .map((branch) => branch.flatMap((inner) => meant(inner)))
    .sort((a, b) => depthOf(b) - depthOf(a));
  const best = branches[0];
  if (!best || depthOf(best) === 0) return [issue];
  return best.map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] }));
}

function valueAt(path: readonly PropertyKey[], value: unknown): unknown {
  return path.reduce<unknown>(
    (inside, key) =>
      typeof inside === 'object' && inside !== null && Object.hasOwn(inside, key)
        ? (inside as Record<PropertyKey, unknown>)[key]
        : undefined,
    value,
  );
}

function shown(got: unknown): string {
  if (got === undefined) return 'nothing';
  try {
    return JSON.stringify(got)?.slice(0, 120) ?? String(got);
  } catch {
    // A value that refers to itself, or a bigint: neither can come from JSON.
    return typeof got;
  }
}

/** Issues of a zod error, each with where, what came and what was wanted. */
export function issuesOf(error: z.ZodError, value: unknown, code: string): Issue[] {
  return error.issues.flatMap(meant).map((issue) => {
    const at = pointerOf(issue.path);
    const got = shown(valueAt(issue.path, value));
    const wanted = issue.code === 'unrecognized_keys' ? `no key ${issue.keys.join(', ')}` : issue.message;
    return { code, at, got, wanted, message: `${at || 'The whole'}: got ${got}. ${issue.message}.` };
  });
}
