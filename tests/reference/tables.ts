import { indexReference } from '../../src/core/reference.ts';
import { readReferenceRows } from '../../src/main/tables.ts';

/** The built-in tables, read once for all tests of a file. */
export const reference = indexReference(readReferenceRows());
