import { signal } from '@preact/signals';
import type { RunRow } from '../../core/port/runs.ts';

/** Runs of the open plan's route over all its plans; null until they are read. */
export const runRows = signal<readonly RunRow[] | null>(null);
