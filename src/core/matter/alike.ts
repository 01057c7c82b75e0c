import { sameMaterial } from './facts.ts';
import { foldForSearch, foldPlural } from './fold-name.ts';
import type { Material } from './material.ts';

const NORMAL = /^\s*n-/i;

/** A name with what tells like names apart left out: hyphens, spellings, a normal chain, a plural. "n-Hexane" and "hexanes" have one. */
export function alikeKey(name: string): string {
  return foldPlural(foldForSearch(name.replace(NORMAL, '')));
}

/**
 * Whether two materials are called nearly the same and are not the same: hexanes and hexane, a hydrate under the name of its salt.
 * One is never taken for the other; that it is there is told.
 */
export function isAlike(one: Material, other: Material): boolean {
  return alikeKey(one.name) === alikeKey(other.name) && !sameMaterial(one, other);
}
