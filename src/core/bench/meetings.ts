import { massFraction } from '../matter/solution.ts';
import type { Charge } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import { charged, type Frees, type InVessel, type Part, type Present, type VesselContext, WASHED_OUT } from './in-vessel.ts';
import { type Clash, clashesOf } from './incompatible.ts';
import { isStrongAcid, isStrongBase, type Nature, natureOf } from './nature.ts';
import { chartGroupsOf, WATER_REACTIVE } from './chart.ts';
import { seriousOfFreed } from './serious.ts';

/** From this mass fraction on an acid counts as concentrated: common practice, no source. */
const CONCENTRATED = 0.5;
/** Up to this mass fraction thinning an acid warms it by a kelvin at most (resources/tables/heats-of-solution.csv): which goes into which does not matter. */
const THIN = 0.1;
/** A step that neutralises to this pH or above leaves no strong acid: common practice, no source. */
const NEAR_NEUTRAL = 4;

/** One thing to say of a charge and something in the vessel. */
interface Said {
  readonly code: string;
  readonly level: Notice['level'];
  readonly material: string;
  readonly other: string;
  readonly gives: string;
  readonly groups: string;
  readonly more: Notice['values'];
}

/** What a charge meets in the vessel, one line for each reason, the materials it concerns together. */
export function meetings(charge: Charge, at: InVessel, context: VesselContext): readonly Notice[] {
  const own = charged(charge, context);
  if (!own) return [];
  const found = at.before.flatMap((there) =>
    there.fraction > 0 && there.material !== own.material
      ? [...acidAndWater(own, there, charge, at, context), ...clashing(own, there, charge, at, context)]
      : [],
  );
  const [active] = own.parts;
  const nature = natureOf(active.facts, context.reference);
  const fierce = nature.groups.includes('water-reactive');
  const hot = isStrongBase(nature) && !fierce && active.facts.state === 'solid' && own.form.kind === 'neat';
  const place = { step: context.step.id, operation: charge.id, material: charge.material };
  const notices = merged(found).map(({ code, level, values }): Notice => ({ code, level, values, at: place }));
  const dissolves: Notice = { code: 'dissolves hot', level: 'caution', values: { material: active.name }, at: place };
  return hot ? [...notices, dissolves] : notices;
}

/** Acid and water, by which of the two comes in; a solution's water onto a concentrated acid counts. */
function acidAndWater(own: Present, there: Present, charge: Charge, at: InVessel, context: VesselContext): readonly Said[] {
  const { step, reference } = context;
  if (there.fraction <= WASHED_OUT || there.how === 'freed' || isNeutralisedBefore(charge, step)) return [];
  const [acid, water] = [
    (one: Part) => isStrongAcid(natureOf(one.facts, reference)),
    (one: Part) => natureOf(one.facts, reference).water,
  ];
  const said = (code: string, material: string, other: string, thin = false): Said => ({
    ...plain(code, thin ? 'note' : 'caution', thin ? { thin: 1 } : {}),
    material,
    other,
  });
  const [in_, held] = [own.parts[0], there.parts[0]];
  if (acid(held) && water(in_)) return [said('acid into water', in_.name, held.name, isThin(there, reference))];
  // Where water has gone in before, that is where it was said: the acid is thin now.
  const thinned = at.before.some(({ parts, fraction }) => water(parts[0]) && fraction > WASHED_OUT);
  const watery = own.form.kind === 'solution' && own.parts.some(water);
  if (acid(held) && watery && !acid(in_) && !thinned && isConcentrated(there, reference)) {
    // A base that neutralises goes into the acid: turning the order round would leave the base in excess to the end.
    const base = natureOf(in_.facts, reference);
    const turned = isStrongBase(base) || (there.how === 'formed' && neutralises(charge, base));
    const code = turned ? 'base slowly into acid' : 'acid into water';
    return [said(code, in_.name, held.name)];
  }
  return acid(in_) && water(held) ? [said('acid slowly into water', in_.name, held.name, isThin(own, reference))] : [];
}

/** A weak base that takes up an acid the reaction made, of which no strength is known. */
function neutralises(charge: Charge, nature: Nature): boolean {
  const rule = charge.rule.kind === 'until' ? charge.rule.estimate : charge.rule;
  return rule.kind === 'to neutralise' || nature.groups.includes('carbonate') || nature.ammonia;
}

/** Once the step has brought the vessel near neutral, no strong acid is left in it that water could meet. */
function isNeutralisedBefore(charge: Charge, { operations }: VesselContext['step']): boolean {
  const index = operations.findIndex((one) => one.id === charge.id);
  return operations.slice(0, index).some((one) => {
    if (one.do !== 'charge') return false;
    const rule = one.rule.kind === 'until' ? one.rule.estimate : one.rule;
    return rule.kind === 'to neutralise' && rule.endPH >= NEAR_NEUTRAL;
  });
}

function isThin(one: Present, reference: VesselContext['reference']): boolean {
  const fraction = massFraction(one.parts[0].facts, one.form, reference);
  return fraction.ok && fraction.figure.value <= THIN * (1 + 1e-9);
}

function isConcentrated(one: Present, reference: VesselContext['reference']): boolean {
  const fraction = massFraction(one.parts[0].facts, one.form, reference);
  return !fraction.ok || fraction.figure.value >= CONCENTRATED;
}

function clashing(own: Present, there: Present, charge: Charge, at: InVessel, context: VesselContext): readonly Said[] {
  const { step, reference } = context;
  const reactants = new Set(step.equation.uses.map((term) => term.material));
  const how: How = {
    meant: reactants.has(there.material) && reactants.has(own.material),
    washed: there.fraction <= WASHED_OUT,
    newVessel: (step.stages?.[charge.stage]?.newVessel ?? false) && isFirst(charge, context),
    quench: charge.stage === 'quench',
    after: charge.stage !== 'reaction',
    made: there.how === 'formed' && charge.stage === 'reaction',
    spent: there.material === step.basis && charge.stage !== 'reaction',
  };
  return own.parts.flatMap((one) =>
    there.parts.flatMap((other) => {
      if (one.facts.name === other.facts.name) return [];
      return clashesOf(one.facts, other.facts, reference).flatMap((clash): readonly Said[] => {
        const said = saidOf(clash, how);
        if (!said) return [];
        const groups = clash.groups.map((pair) => pair.join('–')).join(', ');
        const more = {
          ...said.more,
          ...freedValues(one, other, at, context),
          ...reacts(one, other, clash, context),
          ...(clash.fromMemory ? { memory: 1 } : {}),
        };
        return [{ ...said, material: one.name, other: other.name, gives: clash.gives.join(' '), groups, more }];
      });
    }),
  );
}

interface How {
  /** Both are in the equation: they are to react. */
  readonly meant: boolean;
  readonly washed: boolean;
  readonly newVessel: boolean;
  readonly quench: boolean;
  /** The reaction is over: water is meant, or comes anyway. */
  readonly after: boolean;
  /** The reaction makes it, and is not over. */
  readonly made: boolean;
  /** The basis, after the reaction: as far as any of it is left. */
  readonly spent: boolean;
}

/** Which sentence, and how loud; null for what the equation means and only gets warm. */
function saidOf({ code, severity }: Clash, how: How): Omit<Said, 'material' | 'other'> | null {
  if (how.washed) {
    if (severity !== 'apart') return null;
    return plain(how.newVessel ? 'acid-free, new vessel' : 'acid-free first', 'caution');
  }
  if (how.meant) {
    if (severity === 'warm') return null;
    const general = code.startsWith('chart') || code.startsWith('oxidiser');
    // The equation uses the water, as a quench does.
    return plain(general ? 'reaction itself' : code, 'caution', code === 'reacts with water' ? { quench: 1 } : {});
  }
  // What the reaction makes there is told of as it forms.
  if (severity === 'warm') return how.made ? null : plain(code, 'note');
  const gentle = severity === 'watched' || how.spent || (how.after && code === 'reacts with water');
  const more = { ...(how.spent ? { spent: 1 } : {}), ...(how.after ? { quench: 1 } : {}) };
  return plain(code, gentle ? 'caution' : 'error', more);
}

function plain(code: string, level: Notice['level'], more: Notice['values'] = {}): Omit<Said, 'material' | 'other'> {
  return { code, level, gives: '', groups: '', more };
}

function isFirst(charge: Charge, { step }: VesselContext): boolean {
  return step.operations.find((operation) => operation.do === 'charge' && operation.stage === charge.stage)?.id === charge.id;
}

/** Which of two reacts with water, where a clash is about that and one alone does. */
function reacts(one: Part, other: Part, { code }: Clash, { reference }: VesselContext): Notice['values'] {
  if (code !== 'reacts with water' && code !== 'chart: water-reactive') return {};
  const fierce = [one, other].filter(({ facts }) => chartGroupsOf(facts, reference).includes(WATER_REACTIVE));
  return fierce.length === 1 && fierce[0] ? { reacts: fierce[0].name } : {};
}

/** What comes off where the table knows it: its name, and the worst that is said of it. */
function freedValues(one: Part, other: Part, at: InVessel, context: VesselContext): Notice['values'] {
  const found = at.frees.find(
    ({ from, with: met }) =>
      (from.name === one.name && met.name === other.name) || (from.name === other.name && met.name === one.name),
  );
  return found ? freesValues(found, context) : {};
}

/** What a meeting frees, for its sentence. */
export function freesValues({ from, with: met, rows }: Frees, { reference }: VesselContext): Notice['values'] {
  const names = (gas: boolean): string => rows.flatMap((row) => (row.gas === gas ? [row.makes] : [])).join('|');
  return {
    from: from.name,
    with: met.name,
    gases: names(true),
    makes: names(false),
    statements: seriousOfFreed(rows, reference),
  };
}

interface Line {
  readonly code: string;
  readonly level: Notice['level'];
  readonly values: Notice['values'];
}

/** One line for each reason and each material that comes in; the others it concerns side by side, split by bars. */
function merged(said: readonly Said[]): readonly Line[] {
  const lines = new Map<string, Said[]>();
  for (const one of said) {
    const key = `${one.code}/${one.level}/${one.material}/${JSON.stringify(one.more)}`;
    const held = lines.get(key);
    if (!held) lines.set(key, [one]);
    else if (!held.some((other) => other.other === one.other)) held.push(one);
  }
  return [...lines.values()].flatMap((held): readonly Line[] => {
    const [first] = held;
    if (!first) return [];
    const all = (pick: (one: Said) => string): string => held.map(pick).join('|');
    const values = {
      material: first.material,
      other: all((one) => one.other),
      gives: all((one) => one.gives),
      groups: all((one) => one.groups),
      ...first.more,
    };
    return [{ code: first.code, level: first.level, values }];
  });
}
