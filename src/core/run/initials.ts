import * as z from 'zod/mini';

/** Who wrote an entry: initials or a short name. */
export const Initials = z.string().check(z.minLength(1), z.maxLength(20), z.regex(/^[\p{L}\p{N}][\p{L}\p{N}. -]*$/u));

/**
 * Whether a typed line can stand for a person: figures alone are what a balance or a scanner types.
 * @returns false for what the record would refuse, and for a line without a letter.
 */
export function areInitials(line: string): boolean {
  return /\p{L}/u.test(line) && Initials.safeParse(line).success;
}
