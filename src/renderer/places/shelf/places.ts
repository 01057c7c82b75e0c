import { signal } from '@preact/signals';
import type { ProcedureOutput } from '../../../core/port/port.ts';
import { call } from '../../state/connection.ts';

type Places = ProcedureOutput<'shelf.places'>;
const NOWHERE: Places = [];

/** Every place of the shelf with the number of its bottles; the last answer stays where asking fails. */
export const shelfPlaces = signal(NOWHERE);

export async function readPlaces(): Promise<void> {
  const answer = await call('shelf.places', {});
  if (answer.ok) shelfPlaces.value = answer.value;
}
