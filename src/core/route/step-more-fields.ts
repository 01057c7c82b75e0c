import { planWords } from '../words/plan-words.ts';
import { routeEditWords as words } from '../words/route-edit-words.ts';
import { put } from './edited.ts';
import { materialNamedIn } from './takes-text.ts';
import { readNumber, type TextField, wrong, type Written } from './text-field.ts';
import {
  type CarriedSolvent,
  type Charge,
  type Recovery,
  type Route,
  type Stage,
  STAGES,
  type Step,
  type Term,
} from './route.ts';

const CARRIED = /^\s*(\S.*?)\s+(\d+(?:[.,]\d+)?)\s*mL\s*\/\s*g\s*$/;

/** A solvent that goes along, as it is typed: "toluene 5 mL/g". */
export function carriedText(one: CarriedSolvent | undefined, route: Route): string {
  return one ? `${route.materials[one.material]?.name ?? one.material} ${one.millilitresPerGram} mL/g` : '';
}

function readCarried(text: string, route: Route): Written<CarriedSolvent> {
  const found = CARRIED.exec(text);
  if (!found) return wrong(words.carried);
  const material = materialNamedIn(found[1] ?? '', route);
  if (material === null) return wrong(words.notInRoute(found[1] ?? ''));
  const millilitresPerGram = Number((found[2] ?? '').replace(',', '.'));
  return millilitresPerGram > 0 ? { ok: true, value: { material, millilitresPerGram } } : wrong(words.carried);
}

/** What goes along with a charge or with a step's product. */
export function carriedField<T extends Pick<Step, 'carriedWith'> | Pick<Charge, 'carriedWith'>>(): TextField<T> {
  return {
    name: 'carriedWith',
    kind: 'line',
    read: (of, { route }) => carriedText(of.carriedWith, route),
    write: (of, text, { route }) => {
      if (text.trim() === '') return { ok: true, value: put(of, 'carriedWith', undefined) };
      const read = readCarried(text, route);
      return read.ok ? { ok: true, value: { ...of, carriedWith: read.value } } : read;
    },
  };
}

/** What comes back, as it is typed: "toluene 90 %; catalyst 0.02 mol/mol". */
export function recoversText(recovers: readonly Recovery[] | undefined, route: Route): string {
  return (recovers ?? [])
    .map((one) => {
      const name = route.materials[one.material]?.name ?? one.material;
      return 'percentOfCharge' in one ? `${name} ${one.percentOfCharge} %` : `${name} ${one.molesPerMoleBasis} mol/mol`;
    })
    .join('; ');
}

const RECOVERY = /^(\S.*?)\s+(\d+(?:[.,]\d+)?)\s*(%|mol\s*\/\s*mol)$/;

function readRecovers(text: string, route: Route): Written<Recovery[]> {
  const recovers: Recovery[] = [];
  for (const { piece, at } of pieces(text)) {
    const found = RECOVERY.exec(piece);
    const value = Number((found?.[2] ?? '').replace(',', '.'));
    if (!found || !(value > 0)) return wrong(words.recovers, at);
    const material = materialNamedIn(found[1] ?? '', route);
    if (material === null) return wrong(words.notInRoute(found[1] ?? ''), at);
    recovers.push(found[3] === '%' ? { material, percentOfCharge: value } : { material, molesPerMoleBasis: value });
  }
  return { ok: true, value: recovers };
}

function pieces(text: string): readonly { readonly piece: string; readonly at: number }[] {
  let at = 0;
  return text.split(';').flatMap((raw) => {
    const from = at + (raw.length - raw.trimStart().length);
    at += raw.length + 1;
    return raw.trim() === '' ? [] : [{ piece: raw.trim(), at: from }];
  });
}

const others = (step: Step): readonly Term[] => step.equation.makes.filter((term) => term.material !== step.product);

/** Yields of what a step makes besides its product and is isolated too: "succinimide 60 %". */
const secondYields: TextField<Step> = {
  name: 'secondYields',
  kind: 'line',
  when: (of) => others(of).length > 0,
  read: (of, { route }) =>
    others(of)
      .filter((term) => term.yieldPercent !== undefined)
      .map((term) => `${route.materials[term.material]?.name ?? term.material} ${term.yieldPercent} %`)
      .join('; '),
  write: (of, text, { route }) => {
    const yields = new Map<string, number>();
    for (const { piece, at } of pieces(text)) {
      const found = /^(\S.*?)\s+(\S+)\s*%$/.exec(piece);
      const key = materialNamedIn(found?.[1] ?? '', route);
      if (!found || !others(of).some((term) => term.material === key) || key === null) return wrong(words.secondYields, at);
      const read = readNumber(found[2] ?? '', { least: 0, most: 100, unit: '%' });
      if (!read.ok) return { ...read, at };
      yields.set(key, read.value);
    }
    const makes = of.equation.makes.map((term) =>
      term.material === of.product ? term : put(term, 'yieldPercent', yields.get(term.material)),
    );
    return { ok: true, value: { ...of, equation: { ...of.equation, makes } } };
  },
};

const countedIn: TextField<Step> = {
  name: 'yieldCountedIn',
  kind: 'choice',
  choices: (of, { route }) => [
    { value: '', words: words.ownYield },
    ...route.steps.filter((one) => one.basis === of.product).map((one) => ({ value: one.id, words: one.title })),
  ],
  read: (of) => of.yieldCountedIn ?? '',
  write: (of, text) => ({ ok: true, value: put(of, 'yieldCountedIn', text === '' ? undefined : text) }),
};

type Setting = NonNullable<NonNullable<Step['stages']>[Stage]>;

function withSetting<K extends keyof Setting>(step: Step, stage: Stage, key: K, value: Setting[K] | undefined): Step {
  const setting = put(step.stages?.[stage] ?? {}, key, value);
  const stages = { ...step.stages };
  if (Object.keys(setting).length === 0) delete stages[stage];
  else stages[stage] = setting;
  return put(step, 'stages', Object.keys(stages).length === 0 ? undefined : stages);
}

const worked =
  (stage: Stage) =>
  (of: Step): boolean =>
    of.operations.some((one) => one.stage === stage);

/** Of a stage: what it is done in, whether it starts in another vessel, whether it is lively. */
function stageFields(stage: Stage): readonly TextField<Step>[] {
  const yesOrNo = (key: 'newVessel' | 'lively', no: string, yes: string): TextField<Step> => ({
    name: `${key} ${stage}`,
    kind: 'choice',
    when: worked(stage),
    choices: () => [
      { value: '', words: no },
      { value: 'yes', words: yes },
    ],
    read: (of) => (of.stages?.[stage]?.[key] ? 'yes' : ''),
    write: (of, text) => ({ ok: true, value: withSetting(of, stage, key, text === 'yes' ? true : undefined) }),
  });
  return [
    {
      name: `apparatus ${stage}`,
      kind: 'line',
      when: worked(stage),
      read: (of) => of.stages?.[stage]?.apparatus ?? '',
      write: (of, text) => ({
        ok: true,
        value: withSetting(of, stage, 'apparatus', text.trim() === '' ? undefined : text.trim()),
      }),
    },
    yesOrNo('newVessel', words.sameVessel, words.newVessel),
    yesOrNo('lively', words.calm, words.lively),
  ];
}

/** What of a step is asked for last: what goes along, what comes back, whose yield counts, what each stage is done in. */
export const STEP_MORE_FIELDS: readonly TextField<Step>[] = [
  secondYields,
  countedIn,
  carriedField<Step>(),
  {
    name: 'recovers',
    kind: 'line',
    read: (of, { route }) => recoversText(of.recovers, route),
    write: (of, text, { route }) => {
      if (text.trim() === '') return { ok: true, value: put(of, 'recovers', undefined) };
      const read = readRecovers(text, route);
      return read.ok ? { ok: true, value: put(of, 'recovers', read.value.length === 0 ? undefined : read.value) } : read;
    },
  },
  ...STAGES.flatMap(stageFields),
];

/** The words of a stage's field, from the name of the field: "apparatus quench" → "Apparatus, quench". */
export function stageFieldWords(name: string, said: Readonly<Record<string, string>>): string | null {
  const [key = '', stage = ''] = name.split(/\s(?=\S+$)/);
  const found = STAGES.find((one) => one === stage);
  return found && said[key] ? `${said[key]}, ${planWords.step.stages[found]}` : null;
}
