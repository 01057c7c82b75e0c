import { expect, test } from 'vitest';
import * as z from 'zod/mini';
import { PlanFile } from '../../src/core/plan/ask.ts';
import { Route } from '../../src/core/route/route.ts';
import { Shelf } from '../../src/core/shelf/shelf.ts';

// The published schemas are the program's own, written out; `vitest -u` rewrites them after a wanted change.
test.each([
  ['route', Route],
  ['shelf', Shelf],
  ['plan', PlanFile],
])('the published %s schema is the one the program checks with', async (name, schema) => {
  const text = `${JSON.stringify(z.toJSONSchema(schema, { io: 'input' }), null, 2)}\n`;
  await expect(text).toMatchFileSnapshot(`../../resources/schema/${name}.schema.json`);
});
