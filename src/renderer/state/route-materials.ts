import { signal } from '@preact/signals';
import type { RouteMaterial } from '../../core/shelf/import/route-materials.ts';
import { call } from './connection.ts';

const NONE: readonly RouteMaterial[] = [];

/** Materials of the routes that the built-in table does not have; empty until they are read. */
export const ownMaterials = signal(NONE);

/** Reads them anew: routes were changed in other places meanwhile. */
export async function readOwnMaterials(): Promise<void> {
  const answer = await call('routes.materials', {});
  if (answer.ok) ownMaterials.value = answer.value;
}
