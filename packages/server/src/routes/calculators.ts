import { answered, CATALOGUE, calculatorNamed, calculatorSchema } from '@fettle/core';
import type { OpenAPIHono } from '@hono/zod-openapi';
import { jsonOf, LIMITS } from '../body.ts';
import { given, refusalOf } from '../problem.ts';
import { anything, calculatorAnswer, calculatorPath, calculators, computed } from '../schemas.ts';
import { documented } from './documented.ts';

export function calculatorRoutes(app: OpenAPIHono): void {
  documented(app, {
    method: 'get',
    path: '/api/calculators',
    summary: 'Every calculation that can be had alone',
    answers: { 200: { says: 'Names and sentences', content: { 'application/json': calculators } } },
    handler: (c) =>
      c.json(
        [...CATALOGUE.values()]
          .map(({ name, sentence }) => ({ name, sentence }))
          .sort((a, b) => (a.name < b.name ? -1 : 1)),
      ),
  });
  documented(app, {
    method: 'get',
    path: '/api/calculators/{name}',
    summary: 'A calculation: formula, range, sources, example, and schemas of what goes in and comes out',
    params: calculatorPath,
    answers: { 200: { says: 'The calculation', content: { 'application/json': calculatorAnswer } } },
    handler: (_, { params }) => Response.json(calculatorSchema(given(calculatorNamed(params.name)))),
  });
  documented(app, {
    method: 'post',
    path: '/api/calculators/{name}',
    summary: 'Computes; a bare number is SI, a text carries its unit',
    params: calculatorPath,
    body: { 'application/json': anything },
    answers: { 200: { says: 'The answer', content: { 'application/json': computed } } },
    handler: async (c, { params }) => {
      const calculator = given(calculatorNamed(params.name));
      const answer = answered(calculator, await jsonOf(c, LIMITS.json), { bareNumbersAreSi: true });
      if ('issues' in answer) throw refusalOf(answer.issues);
      return Response.json(answer);
    },
  });
}
