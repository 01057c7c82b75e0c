import type { Procedures } from './context.ts';

export const referenceProcedures: Procedures<'reference.read'> = {
  'reference.read': ({ reference }) => reference(),
};
