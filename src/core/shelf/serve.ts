import type { Facts } from '../matter/facts.ts';
import { type Form, plainStrength } from '../matter/form.ts';
import { sameSolvent } from '../matter/named.ts';
import { massFraction, strengthOn } from '../matter/solution.ts';
import type { Reference } from '../reference.ts';
import type { Bottle } from './shelf.ts';

/** How a bottle stands to the form a charge asks for. */
export type Service = 'serves' | 'stronger' | 'no';

/**
 * Whether a bottle is what is asked for (within the lab's margin for strengths), or stronger so that it can be
 * diluted to it. A neat solid or liquid is stronger than any solution of itself.
 */
export function serviceOf(bottle: Bottle, asked: Form, facts: Facts, matchPercent: number, reference: Reference): Service {
  if (bottle.form.kind === 'unknown' || asked.kind === 'unknown') return 'no';
  if (asked.kind === 'neat') return bottle.form.kind === 'neat' ? 'serves' : 'no';
  if (bottle.form.kind === 'solution' && sameStrength(bottle.form, asked, matchPercent, reference)) return 'serves';
  if (bottle.form.kind === 'solution' && !sameSolvent(bottle.form, asked, reference)) return 'no';
  return strongerThan(bottle.form, asked, facts, matchPercent, reference);
}

function sameStrength(
  one: Form & { kind: 'solution' },
  asked: Form & { kind: 'solution' },
  matchPercent: number,
  reference: Reference,
): boolean {
  const has = plainStrength(one.strength);
  const wants = plainStrength(asked.strength);
  if (!sameSolvent(one, asked, reference) || has.basis !== wants.basis) return false;
  return Math.abs(has.value / wants.value - 1) <= matchPercent / 100 + 1e-12;
}

function strongerThan(
  form: Form,
  asked: Form & { kind: 'solution' },
  facts: Facts,
  matchPercent: number,
  reference: Reference,
): Service {
  const wanted = plainStrength(asked.strength);
  if (form.kind === 'solution' && plainStrength(form.strength).basis !== wanted.basis) {
    const same = strengthOn(wanted.basis, facts, form, reference);
    if (same.ok && Math.abs(same.figure.value / wanted.value - 1) <= matchPercent / 100) return 'serves';
  }
  const has = massFraction(facts, form, reference);
  const wants = massFraction(facts, asked, reference);
  return has.ok && wants.ok && has.figure.value > wants.figure.value ? 'stronger' : 'no';
}
