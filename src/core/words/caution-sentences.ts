import { formatAmount, formatSignificant, shownUnit } from '../quantity/format.ts';
import type { Notice } from './notice.ts';

type Values = Notice['values'];
type Sentence = (values: Values) => string;

const text = (values: Values, name: string): string => String(values[name] ?? '');
const parts = (values: Values, name: string): readonly string[] =>
  text(values, name)
    .split('|')
    .filter((one) => one !== '');
const grams = (values: Values, name: string, digits = 3): string => {
  const { unit, factor } = shownUnit(Number(values[name]), 'g');
  return `${formatSignificant(Number(values[name]) * factor, digits)}\u00a0${unit}`;
};

/** A volume of gas: in litres, where it is very large or very small in another unit. */
const litres = (values: Values): string => {
  const value = Number(values.litres);
  if (value >= 0.1 && value < 1e4) return `${formatSignificant(value, 3)} L`;
  const { text: size, unit } = formatAmount({ value: value * 1000, unit: 'mL', digits: 3 });
  return `${size} ${unit}`;
};

/** "a", "a and b", "a, b and c". */
function list(names: readonly string[]): string {
  const last = names.at(-1) ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
}

/** What a code of the compatibility chart stands for. */
const GIVES: Readonly<Record<string, string>> = {
  X: 'a violent reaction',
  E: 'an explosion',
  F: 'fire',
  GT: 'a poisonous gas',
  GF: 'a gas that burns',
  P: 'a violent polymerisation',
  H: 'heat',
  G: 'gas',
  U: 'harm, not known which',
};

const givesText = (codes: string): string => list(codes.split(' ').flatMap((code) => GIVES[code] ?? []));

/** The chart with its groups; empty where the pair is not from the chart. */
function chart(values: Values): string {
  const groups = [...new Set(parts(values, 'groups').flatMap((one) => one.split(', ')))];
  if (groups.length === 0) return '';
  const memory = values.memory === undefined ? '' : ', from memory';
  return ` (EPA-600/2-80-076, groups ${groups.join(', ')}${memory})`;
}

/** "ethanol (fire and heat)", each with its own; without brackets where all are alike. */
function others(values: Values): { readonly names: string; readonly gives: string } {
  const names = parts(values, 'other');
  const gives = text(values, 'gives').split('|').map(givesText);
  const alike = new Set(gives).size === 1;
  if (alike) return { names: list(names), gives: gives[0] ?? '' };
  return { names: list(names.map((name, at) => (gives[at] ? `${name} (${gives[at]})` : name))), gives: '' };
}

/** "a meets b: heat can come of it"; where each gives something else, "a can give fire with b, and heat with c". */
const comesOf = (values: Values): string => {
  const { names, gives } = others(values);
  const material = text(values, 'material');
  if (gives !== '') return `${material} meets ${names}: ${gives} can come of it`;
  const codes = text(values, 'gives').split('|').map(givesText);
  const withThat = (what: string): readonly string[] => parts(values, 'other').filter((_, at) => (codes[at] ?? '') === what);
  const each = [...new Set(codes)].flatMap((what) => (what === '' ? [] : [`${what} with ${list(withThat(what))}`]));
  const bare = withThat('');
  return `${material} can give ${each.join(', and ')}${bare.length === 0 ? '' : `; it meets ${list(bare)} too`}`;
};

/** Whatever is left of a starting material after the reaction is not known. */
const spent = (values: Values): string =>
  values.spent === undefined ? '' : ` As far as any ${list(parts(values, 'other'))} is left.`;

const meets = (values: Values): string => `${text(values, 'material')} meets ${list(parts(values, 'other'))}`;
const statements = (values: Values): string => (text(values, 'statements') === '' ? '' : ` ${text(values, 'statements')}`);

/** What comes off and what forms. */
function freed(values: Values): string {
  const [gases, makes] = [parts(values, 'gases'), parts(values, 'makes')];
  return list([
    ...(gases.length > 0 ? [`${list(gases)} ${gases.length > 1 ? 'come' : 'comes'} off`] : []),
    ...(makes.length > 0 ? [`${list(makes)} ${makes.length > 1 ? 'form' : 'forms'}`] : []),
  ]);
}

/** What comes of it beside the violent reaction itself. */
const fierce = (values: Values): string => {
  const codes = [...new Set(text(values, 'gives').split(/[ |]/))].filter((code) => code !== 'X').join(' ');
  return givesText(codes) === '' ? '' : `: ${givesText(codes)}`;
};

/** Which of the two reacts with water, and with what. */
const reacting = (values: Values): string =>
  values.reacts === undefined
    ? `${meets(values)}: one of them reacts with water`
    : `${text(values, 'reacts')} reacts with ${values.reacts === values.material ? list(parts(values, 'other')) : text(values, 'material')}`;
const violent = (values: Values): string =>
  values.reacts === undefined
    ? `${meets(values)}: one reacts with water, and can react violently with the other too`
    : `${text(values, 'reacts')} reacts with water, and can react violently with ${values.reacts === values.material ? list(parts(values, 'other')) : text(values, 'material')} too`;

/** In a quench, and where the equation uses it, water is meant; anywhere else it may be, or must be kept out. */
const water = (values: Values): string =>
  values.quench === undefined
    ? ' Unless the procedure itself puts water here, keep every trace of it out until the quench; where it does, as slowly and as cold as it says, or slower.'
    : ' The first drops react hardest: as slowly and as cold as the procedure says, or slower.';

const meeting =
  (ends: string): Sentence =>
  (v) =>
    `${meets(v)}: ${ends}${statements(v)}${spent(v)}`;

/** Cautions; each stands immediately before its operation. */
export const CAUTION_SENTENCES: Readonly<Record<string, Sentence>> = {
  hazards: (v) => `${text(v, 'material')}: ${text(v, 'statements')}`,
  'hazards as before': (v) => `${text(v, 'material')}: hazards as named above, where it is charged first.`,
  formed: (v) => `From here on ${text(v, 'material')} forms; as the pure substance: ${text(v, 'statements')}`,
  'gas freed': (v) =>
    `${text(v, 'material')} comes off, ${litres(v)} (${grams(v, 'grams')}) a batch by the equation; what is charged beyond it can free more. Fume cupboard, sash down, never a closed vessel.${statements(v)}`,
  frees: (v) =>
    `${text(v, 'from')} with ${text(v, 'with')}: ${freed(v)}.${parts(v, 'gases').length > 0 ? ' Fume cupboard, never a closed vessel.' : ''}${statements(v)}`,
  'energetic charged': (v) =>
    `By its structure ${text(v, 'material')} holds ${text(v, 'groups')} (${text(v, 'source')}): it may explode by heat, blow, friction or drying. Read its safety sheet, and do not handle it before the person responsible has agreed.`,
  'energetic formed': (v) =>
    `From here on ${text(v, 'material')} forms; by its structure it holds ${text(v, 'groups')} (${text(v, 'source')}): it may explode by heat, blow, friction or drying. Do not begin before the person responsible has judged the step and this scale.`,
  'catalyst ignites': (v) =>
    `${text(v, 'material')} can ignite in air, most of all when it has taken up hydrogen, and sets solvent vapour on fire (Prudent Practices in the Laboratory, palladium on carbon): flush the vessel with inert gas before it goes in, never dry into solvent in air; its filter cake must stay wet.`,
  'no structure': (v) =>
    `No structure is entered for ${text(v, 'materials')}: whether it holds groups that can explode is not known.`,

  'acid into water': (v) =>
    v.thin !== undefined
      ? `Add ${text(v, 'material')} slowly, with stirring, to the thin acid (${list(parts(v, 'other'))}).`
      : `Acid into water, never water into acid: pour the mixture that holds ${list(parts(v, 'other'))} slowly into the ${text(v, 'material')}, with stirring and cooling.`,
  'base slowly into acid': (v) =>
    `Add ${text(v, 'material')} slowly, with stirring and cooling, to the mixture that holds ${list(parts(v, 'other'))}: each portion heats strongly, its water too, and a hot acid spits.`,
  'acid slowly into water': (v) =>
    v.thin === undefined
      ? `Add ${text(v, 'material')} slowly, with stirring and cooling: acid into water, never the other way round.`
      : `Add ${text(v, 'material')} slowly, with stirring.`,
  'dissolves hot': (v) => `${text(v, 'material')} gets hot when it dissolves: in small portions, with stirring.`,
  'base slowly into water': (v) => `Add ${text(v, 'material')} slowly to the water, with stirring: it gets warm.`,
  'acid-free, new vessel': (v) =>
    `Not a trace of ${list(parts(v, 'other'))} may be left, and a new vessel is needed, before ${text(v, 'material')} is added: together they can react violently or free a poison. Test the washings first.`,
  'acid-free first': (v) =>
    `No ${list(parts(v, 'other'))} may be left when ${text(v, 'material')} is added: together they can react violently or free a poison. Test first.`,

  'oxidiser meets organic': (v) =>
    `${text(v, 'material')} meets ${others(v).names} in this vessel: an oxidiser and an organic material can react violently${others(v).gives === '' ? '' : `, with ${others(v).gives}`}${chart(v)}. Remove one first, or use a new vessel.${spent(v)}`,
  'oxidiser meets reducing agent': (v) =>
    `${meets(v)}: an oxidiser and a reducing agent can react violently. Remove one first, or use a new vessel.${spent(v)}`,
  'acid frees chlorine': meeting('poisonous chlorine is freed.'),
  chloramines: meeting('poisonous chloramines are freed.'),
  'acid frees carbon dioxide': meeting(
    'carbon dioxide comes off and foams. Slowly, in an open vessel; vent a separating funnel at every turn.',
  ),
  'acid frees hydrazoic acid': meeting('explosive, poisonous hydrazoic acid is freed.'),
  'azide meets chlorinated solvent': meeting(
    'diazidomethane and its like can form, which explode; azides never come into contact with chlorinated solvents, in the work-up and the waste either (C&EN, 14 June 2010).',
  ),
  'acid frees hydrogen cyanide': meeting('poisonous hydrogen cyanide is freed.'),
  'acid frees hydrogen sulfide': meeting('poisonous hydrogen sulfide is freed.'),
  'acid frees nitrous gases': meeting('poisonous nitrous gases are freed.'),
  'acid frees a poison': (v) =>
    `${meets(v)}: by its hazard statement a poisonous gas is freed with acid${freed(v) === '' ? '' : ` (${freed(v)})`}.${statements(v)}${spent(v)}`,
  'reacts with water': (v) =>
    v.from === undefined
      ? `${reacting(v)}, with heat and perhaps gas.${water(v)}${spent(v)}`
      : `${text(v, 'from')} reacts with ${text(v, 'with')}, with heat: ${freed(v)}.${water(v)}${parts(v, 'gases').length > 0 ? ' Fume cupboard, no flame, never a closed vessel.' : ''}${statements(v)}${spent(v)}`,
  'reacts as before': (v) =>
    `Any ${text(v, 'from')} that is left reacts with ${text(v, 'with')} too: the caution above about it holds here.`,
  'meets as before': (v) =>
    `More ${text(v, 'material')} comes together with ${list(parts(v, 'other'))}: the caution above about them holds here too.${spent(v)}`,
  'neutralisation heat': meeting('acid and base give heat. Slowly, with cooling.'),
  'little heat': (v) =>
    `${meets(v)}: both are thin; the heats known here come to about ${formatSignificant(Number(v.kelvin), 1)} K in all, and what is not known here comes on top. Read the thermometer.`,
  'chart: apart': (v) =>
    `${text(v, 'material')} meets ${others(v).names}${others(v).gives === '' ? '' : `: ${others(v).gives}`}${chart(v)}. Keep them apart: take one out first, or use a new vessel.${spent(v)}`,
  'chart: watched': (v) => `${comesOf(v)}${chart(v)}. Ask the person responsible before they meet.${spent(v)}`,
  'chart: warm': (v) => `${comesOf(v)}${chart(v)}.${spent(v)}`,
  'chart: water-reactive': (v) => `${violent(v)}${fierce(v)}${chart(v)}.${spent(v)}`,
  'reaction itself': (v) =>
    `The reaction itself brings ${text(v, 'material')} and ${others(v).names} together${others(v).gives === '' ? '' : `; ${others(v).gives} can come of it`} when it runs faster than it is cooled${chart(v)}. Keep to the procedure’s order, temperature and time; a larger scale is for the person responsible to judge.`,

  'oxidiser in organic waste': (v) =>
    `Traces of ${text(v, 'material')} can be left in this, which goes into “${text(v, 'container')}” with ${list(parts(v, 'other'))}: test that it is acid-free first. If it is not, stop and ask the person responsible.`,
  'oxidising waste': (v) =>
    `Holds ${text(v, 'material')}: into “${text(v, 'container')}” only. Never into a bottle that holds anything organic, and never tightly closed.`,
  'waste must not meet': (v) =>
    `“${text(v, 'container')}” would hold ${text(v, 'one')} and ${text(v, 'other')} together: they need separate containers.${wasteReason(v)}`,

  'scale: jump': (v) =>
    `Pause: one batch takes ${grams(v, 'grams')} of the basis, ${formatSignificant(Number(v.fold), 2)} times the largest run recorded (${grams(v, 'largest')}, run ${text(v, 'run')}). An intermediate scale comes first, about ${grams(v, 'between', 2)} and never above ${grams(v, 'most')}; its heat, gas and times, and the person responsible, decide whether to go on.`,
  'scale: no run recorded': () =>
    'No run of this step is recorded: how it goes at any scale is not known here. Begin small, at a scale the person responsible has agreed.',
  'scale: runs not read': () =>
    'The record of runs is not read here: hold each batch against the largest run of its step, and pause where it is more than tenfold.',
  'scale: not known': () =>
    'How this scale stands to the runs recorded is not known: the mass of the basis, theirs or this one’s, is not.',

  'peroxides: overdue': (v) =>
    `${text(v, 'material')}, ${bottle(v)}: ${since(v)}, and ${months(v)} were over on ${text(v, 'due')}. It ${text(v, 'words')} (${klass(v)}). With crystals, a skin or a stuck cap do not move or open it: call the person responsible. Not to be used before a test for peroxides, done now and recorded, finds none.`,
  'peroxides: date not known': (v) =>
    `${text(v, 'material')}, ${bottle(v)}: ${since(v)}. It ${text(v, 'words')} (${klass(v)}; ${months(v)} after opening). With crystals, a skin or a stuck cap do not move or open it: call the person responsible. Test for peroxides before use, record it, and write the date on the bottle.`,
  'peroxides: in date': (v) =>
    `${text(v, 'material')}, ${bottle(v)}: ${since(v)}; test for peroxides by ${text(v, 'due')}, and before any distilling. It ${text(v, 'words')} (${klass(v)}).`,
  'peroxides: no bottle': (v) =>
    `${text(v, 'material')} ${text(v, 'words')} (${klass(v)}), and no bottle of it is chosen: its date of opening is not known. Write it on the bottle; ${months(v)} after opening it is tested or given up.`,
  'peroxides: concentrated': (v) =>
    `${text(v, 'material')}: peroxides stay behind and are concentrated here. Test for peroxides first; never to dryness; behind a shield.`,
};

const bottle = (v: Values): string =>
  text(v, 'lot') === '' ? `bottle ${text(v, 'bottle')}` : `bottle ${text(v, 'bottle')}, lot ${text(v, 'lot')}`;
const months = (v: Values): string => `${text(v, 'months')} months`;
const klass = (v: Values): string => `class ${text(v, 'class')}: ${text(v, 'source')}`;
const since = (v: Values): string => {
  const opened = text(v, 'opened') === '' ? 'date of opening not recorded' : `opened on ${text(v, 'opened')}`;
  const tested = text(v, 'tested') === '' ? 'no test for peroxides recorded' : `tested for peroxides on ${text(v, 'tested')}`;
  const other = text(v, 'otherTest') === '' ? '' : ` (${text(v, 'done')} on ${text(v, 'otherTest')}, but not for that)`;
  return `${opened}, ${tested}${other}`;
};

/** Why two wastes must not meet, in a few words. */
const WASTE_REASONS: Readonly<Record<string, string>> = {
  'oxidiser meets organic': 'an oxidiser and an organic material: fire, or a burst bottle',
  'oxidiser meets reducing agent': 'an oxidiser and a reducing agent: fire, or a burst bottle',
  'acid frees chlorine': 'poisonous chlorine is freed',
  chloramines: 'poisonous chloramines are freed',
  'acid frees hydrazoic acid': 'explosive, poisonous hydrazoic acid is freed',
  'azide meets chlorinated solvent': 'diazidomethane and its like can form, which explode',
  'acid frees hydrogen cyanide': 'poisonous hydrogen cyanide is freed',
  'acid frees hydrogen sulfide': 'poisonous hydrogen sulfide is freed',
  'acid frees nitrous gases': 'poisonous nitrous gases are freed',
  'acid frees a poison': 'a poisonous gas is freed',
  'acid frees carbon dioxide': 'carbon dioxide comes off: a closed bottle bursts',
  'reacts with water': 'one of them reacts with water: heat, gas, a burst bottle',
  'neutralisation heat': 'acid and base give heat',
  'chart: water-reactive': 'what reacts with water can react violently with the other too',
};

function wasteReason(v: Values): string {
  const own = WASTE_REASONS[text(v, 'reason')] ?? givesText(text(v, 'gives'));
  return own === '' ? '' : ` Reason: ${own}${chart(v)}.`;
}
