import * as z from 'zod/mini';

/** Who wrote an entry: initials or a short name. */
export const Initials = z.string().check(z.minLength(1), z.maxLength(20), z.regex(/^[\p{L}\p{N}][\p{L}\p{N}. -]*$/u));
