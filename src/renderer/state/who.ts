import { signal } from '@preact/signals';

/** Initials of who is working here; kept in this window. */
export const who = signal('');
