import { describe, expect, test } from 'vitest';
import type { Material } from '../../src/core/matter/material.ts';
import { addCharge } from '../../src/core/procedure/add-charge.ts';
import { readChargeLine, withSaid } from '../../src/core/procedure/charge-line.ts';
import { withYield } from '../../src/core/procedure/edit-print.ts';
import { publishedStep } from '../../src/core/procedure/published.ts';
import { chargesOf } from '../../src/core/procedure/step-charges.ts';
import { materialChoices } from '../../src/core/route/choose-material.ts';
import { factsOfRoute } from '../../src/core/route/edit-materials.ts';
import type { Route } from '../../src/core/route/route.ts';
import { formWords } from '../../src/core/words/form-words.ts';
import { reference } from '../reference/tables.ts';
import { draw, planOf, route, step } from './build.ts';

interface Procedure {
  /** The page whose text the lines are taken from, as it was read. */
  readonly source: string;
  readonly basis: Material;
  readonly product: Material;
  readonly uses?: readonly { readonly material: Material; readonly coefficient: number }[];
  /** As a person types them from the page. */
  readonly lines: readonly string[];
  readonly printed?: { readonly product?: string; readonly yield?: string };
}

const made = (name: string, formula: string): Material => ({ name, formula, state: 'solid' });

/** The step as typed line by line; what it has to say of its prints, cautions with their place first. */
function typed({ basis, product, uses = [], lines, printed }: Procedure): {
  readonly said: readonly string[];
  readonly route: Route;
} {
  const extra = uses.map((_, at) => `reagent-${at}`);
  const materials = Object.fromEntries([
    ['basis', basis],
    ['product', product],
    ...uses.map((one, at) => [extra[at] ?? '', one.material] as const),
  ]);
  const first = step({ id: 's', basis: 'basis', product: 'product' });
  const equation = {
    ...first.equation,
    uses: [...first.equation.uses, ...uses.map((one, at) => ({ material: extra[at] ?? '', coefficient: one.coefficient }))],
  };
  let made = route(materials, [{ ...first, equation }]);
  for (const text of lines) {
    const line = readChargeLine(text);
    if (!line.ok) throw new Error(`${text}: ${line.words}`);
    const [choice] = materialChoices(line.name, made, reference);
    if (!choice) throw new Error(`${text}: no material`);
    const added = addCharge(made, 's', choice.choice, withSaid(line, choice.said), reference);
    if (!added.ok) throw new Error(`${text}: ${added.problems.map((one) => one.words).join('; ')}`);
    made = added.route;
  }
  const known = { facts: factsOfRoute(made, reference), reference };
  const [only] = made.steps;
  if (!only) throw new Error('the route needs its step');
  const full = printed ? withYield(only, printed, known) : only;
  const said = publishedStep(full, known).notices.map(({ level, code, at }) => {
    const charge = chargesOf(full).find((one) => one.id === at.operation);
    return `${level}: ${code}${charge ? `, ${made.materials[charge.material]?.name ?? ''}` : ''}`;
  });
  return { said, route: { ...made, steps: [full] } };
}

const benzaldehyde = { name: 'benzaldehyde', formula: 'C7H6O', state: 'liquid', cas: '100-52-7' } as const;
const aniline = { name: 'aniline', formula: 'C6H7N', state: 'liquid', cas: '62-53-3' } as const;
const acetone = { name: 'acetone', formula: 'C3H6O', state: 'liquid', cas: '67-64-1' } as const;
const triethylamine = { name: 'triethylamine', formula: 'C6H15N', state: 'liquid', cas: '121-44-8' } as const;
const dibenzalacetone = made('dibenzalacetone', 'C17H14O');
const acetanilide = made('acetanilide', 'C8H9NO');

/** Teaching and open procedures of harmless compounds; what is said of each print, and nothing else. */
const PROCEDURES: readonly (readonly [string, Procedure, readonly string[]])[] = [
  [
    'dibenzalacetone, 1.9 equiv of an aldehyde of which the equation takes two',
    {
      source: 'pierpalab.com/2025/02/16/dibenzalacetone-synthesis, after Org. Synth. 1932, 12, 22',
      basis: acetone,
      product: dibenzalacetone,
      uses: [{ material: benzaldehyde, coefficient: 2 }],
      lines: [
        '1.45g (24.9mmol, 1.0eq.) of acetone',
        '5.03g (47.4mmol, 1.9eq.) of benzaldehyde',
        '5g of sodium hydroxide (125mmol, 5.0eq.)',
        '50mL of deionized water',
        '40mL of 95 % v/v ethanol',
      ],
    },
    ['note: printed moles cut off, acetone', 'caution: printed amounts: another limits'],
  ],
  [
    'dibenzalacetone on the small scale',
    {
      source: 'studymode.com/essays/aldol-54274229.html',
      basis: benzaldehyde,
      product: dibenzalacetone,
      lines: ['0.212 g of pure benzaldehyde', '2 mL of 3M sodium hydroxide solution', '0.058 g of acetone', '3 mL of water'],
    },
    [],
  ],
  [
    'a biaryl coupling, with its yield',
    {
      source: 'cssp.chemspider.com/822 (SyntheticPage 822)',
      basis: made('4-bromochlorobenzene', 'C6H4BrCl'),
      product: made('4-chlorobiphenyl', 'C12H9Cl'),
      lines: [
        '4-bromochlorobenzene (0.189 g, 1.0 mmol)',
        'phenylboronic acid (0.128 g, 1.05 mmol, 1.05 equiv)',
        '2 mL of 1 M potassium hydroxide solution',
        'ice cold water (5 mL)',
      ],
      printed: { product: '0.12 g (0.64 mmol)', yield: '64 %' },
    },
    [],
  ],
  [
    'an ester with a misprinted catalyst: 205 mg of the chloride are 0.74 mmol, not 0.9',
    {
      source: 'fikirbuzzprojects.com/provera-and/esterification-of-benzoic-acid-mechanism',
      basis: made('benzoic acid', 'C7H6O2'),
      product: made('methyl benzoate', 'C8H8O2'),
      uses: [{ material: made('TBACl', 'C16H36ClN'), coefficient: 1 }],
      lines: ['benzoic acid (366 mg, 3.0 mmol)', 'K2CO3 (41 mg, 0.3 mmol)', 'TBACl (205 mg, 0.9 mmol)'],
    },
    ['caution: printed moles, TBACl', 'caution: printed amounts: another limits'],
  ],
  [
    'methyl benzoate with decimal commas, concentrated acid and a yield that was cut off',
    {
      source: 'a translated textbook page, id4.ilovetranslation.com/PB0hJYs2WWw=d',
      basis: made('benzoic acid', 'C7H6O2'),
      product: made('methyl benzoate', 'C8H8O2'),
      lines: [
        '30 g (0,246 mol) benzoic acid',
        '80 g (101 ml, 2,5 mol) absolute methanol',
        '5g (2,7 ml) concentrated sulfuric acid',
      ],
      printed: { product: '31 g', yield: '92 %' },
    },
    ['note: printed yield cut off'],
  ],
  [
    'acetanilide, densities in brackets',
    {
      source: 'wwwchem.uwimona.edu.jm/lab_manuals/c10expt23.html',
      basis: aniline,
      product: acetanilide,
      lines: [
        '2 mL aniline (density 1.02 g cm-3)',
        '60 mL water',
        '2 mL concentrated hydrochloric acid',
        '3 g sodium acetate',
        '3 mL acetic anhydride (density 1.08 g cm-3)',
      ],
    },
    [],
  ],
  [
    'acetanilide on the small scale: the trihydrate by its name',
    {
      source: 'essaysamurai.co.uk/preparation-of-acetanilide',
      basis: aniline,
      product: acetanilide,
      lines: ['100 μL of aniline', '150 mg (1.10 mmol) of sodium acetate trihydrate'],
    },
    [],
  ],
  [
    'the same with the water left out of the name: a hidden hydrate',
    {
      source: 'essaysamurai.co.uk/preparation-of-acetanilide, "trihydrate" left out',
      basis: aniline,
      product: acetanilide,
      lines: ['100 μL of aniline', '150 mg (1.10 mmol) of sodium acetate'],
    },
    ['caution: hidden hydrate, sodium acetate'],
  ],
  [
    'the anhydrous salt under the name of its hydrate, by a round number: 1.62 g are 10 mmol of FeCl3, not of the hexahydrate',
    {
      source: 'made up: a common slip',
      basis: aniline,
      product: acetanilide,
      lines: ['aniline 9.3 g', 'FeCl3·6H2O (1.62 g, 10 mmol)'],
    },
    ['caution: hidden hydrate, iron(III) chloride hexahydrate'],
  ],
  [
    'adipic acid: an acid by volume, mass and density',
    {
      source: 'organics-practical.blogspot.com/2018/08/synthesis-of-adipic-acid-hexanedioic.html',
      basis: made('cyclohexanol', 'C6H12O'),
      product: made('adipic acid', 'C6H10O4'),
      lines: ['50 g (0.5 mol) of cyclohexanol', '190 ml (270 g) of 70 % w/w nitric acid, d1.42'],
      printed: { product: '40 g', yield: '55 %' },
    },
    [],
  ],
  [
    'a chalcone by volumes',
    {
      source: 'thosci.com/synthesis-of-chalcone',
      basis: {
        name: 'acetophenone',
        formula: 'C8H8O',
        state: 'liquid',
        cas: '98-86-2',
        density: { gramsPerMillilitre: 1.028, celsius: 20 },
      },
      product: made('chalcone', 'C15H12O'),
      lines: [
        '12 mL of acetophenone with vigorous stirring',
        '25 mL of ethanol',
        '40 mL of water',
        '4.4 g of sodium hydroxide',
        '13 mL of benzaldehyde',
      ],
    },
    [],
  ],
  [
    'a chalcone by coarse prints: 0.08 g and 0.5 mmol agree as finely as they are printed',
    {
      source: 'bio-protocol.org/exchange/minidetail?id=10786748&type=30',
      basis: made('1,4-benzodioxan-6-yl methyl ketone', 'C10H10O3'),
      product: made('Anth-1', 'C25H18O3'),
      uses: [{ material: made('anthracene-9-carbaldehyde', 'C15H10O'), coefficient: 1 }],
      lines: ['1,4-Benzodioxan-6-yl methyl ketone (0.5 mmol, 0.08 g)', 'anthracene-9-carbaldehyde (0.5 mmol, 0.11 g)'],
    },
    [],
  ],
  [
    'a copper complex: the formula behind the name, cubic centimetres, dropwise without a comma',
    {
      source: 'issuepoints.com/essay-on/Preparation-Of-Bis-Acetylacetonato-Copper-2-Complex/338997',
      basis: made('copper(II) nitrate trihydrate', 'Cu(NO3)2·3H2O'),
      product: made('bis(acetylacetonato)copper(II)', 'C10H14CuO4'),
      lines: ['6g of copper (II) nitrate (Cu(NO3)2.3H2O)', '60 cm3 of water', '6 cm3 of acetyl acetone was added dropwise'],
    },
    [],
  ],
];

test.each(PROCEDURES)('%s', (_, procedure, said) => {
  expect(typed(procedure).said).toEqual(said);
});

describe('what is said of strength and dryness', () => {
  const chargeOf = (line: string) => {
    const { route: one } = typed({ source: '', basis: aniline, product: acetanilide, lines: ['aniline 9.3 g', line] });
    const [only] = one.steps;
    const charge = only && chargesOf(only).at(-1);
    return {
      name: one.materials[charge?.material ?? '']?.name,
      form: charge?.form && formWords(charge.form),
      note: charge?.note,
      printed: charge?.printed,
    };
  };
  test.each([
    ['NaOH 10 wt%, 50 mL', { name: 'sodium hydroxide', form: '10 % w/w' }],
    ['10 wt% aqueous NaOH (50 mL)', { name: 'sodium hydroxide', form: '10 % w/w', note: 'aqueous' }],
    ['K2CO3 (2 M aq., 10 mL)', { name: 'potassium carbonate', form: '2 mol/L' }],
    ['THF (anhydrous, 25 mL)', { name: 'tetrahydrofuran', note: 'anhydrous', printed: '(25 mL)' }],
    ['NaBH4 (0.38 g, 10 mmol) in portions', { name: 'sodium borohydride', note: 'in portions' }],
    ['triethylamine (2.1 mL, 15 mmol) was added dropwise over 10 min', { name: 'triethylamine', note: 'dropwise' }],
    ['Et3N (1.5 equiv., 21 mL)', { name: 'triethylamine', printed: '(1.5 equiv., 21 mL)' }],
    // Read as elements these would be wrong moles; and "DIC" is no dichloromethane.
    ['NCS 1.34 g', { name: 'N-chlorosuccinimide' }],
    ['PCC 2.16 g', { name: 'pyridinium chlorochromate' }],
    // Signs aside it would be an oxidiser's abbreviation.
    ['Pd/C 50 mg', { name: 'Pd/C' }],
    ['NaHMDS (1 M in THF, 10 mL)', { name: 'sodium bis(trimethylsilyl)amide', form: '1 mol/L in THF' }],
    ['HBTU 3.79 g', { name: 'HBTU' }],
    ['DIC 1.26 g', { name: "N,N'-diisopropylcarbodiimide" }],
    ['DMP 4.24 g', { name: 'DMP' }],
    [
      'saturated aqueous solution of ammonium chloride (20 mL)',
      { name: 'ammonium chloride', note: 'aqueous solution; saturated' },
    ],
    // A molarity alone is what a solvent is brought to.
    ['toluene (0.2 M)', { name: 'toluene', printed: 'to 0.2 mol/L' }],
    ['toluene (5 mL/mmol)', { name: 'toluene', printed: '(5 mL/mmol)' }],
    ['0.5 M DCM', { name: 'dichloromethane', printed: 'to 0.5 mol/L' }],
    // One proton a mole: normality is molarity.
    ['6N HCl 10 mL', { name: 'hydrogen chloride', form: '6 mol/L', note: '“6 N” taken as 6 mol/L: one equivalent a mole' }],
    ['NaOH (1 N, 20 mL)', { name: 'sodium hydroxide', form: '1 mol/L' }],
    ['ice-water (100 mL)', { name: 'ice-water', printed: '(100 mL)' }],
    ['TBX 1.26 g', { name: 'TBX' }],
    // Moles that cannot be told cost only the moles.
    ['sat. aq. NaHCO3 50 mL', { name: 'sodium hydrogen carbonate', form: 'strength unknown', printed: '50 mL' }],
    ['dilute hydrochloric acid 30 mL', { form: 'strength unknown', note: 'dilute' }],
    ['acetic acid 2 M in water, 10 mL', { name: 'acetic acid', form: '2 mol/L' }],
  ])('%s', (line, expected) => {
    expect(chargeOf(line)).toMatchObject(expected);
  });

  test.each([
    // How much water it holds is not said: the hydrate of the table is offered first, and "hydrated" stays in the note.
    ['copper sulphate (hydrated) 5 g', { name: 'copper(II) sulfate pentahydrate', note: 'hydrated' }],
    ['hydrated cobalt chloride 5 g', { name: 'cobalt(II) chloride hexahydrate' }],
    ['crystallised sodium acetate 5 g', { name: 'sodium acetate trihydrate', note: 'crystallised' }],
    ['ferrous sulphate, hydrated, 5 g', { name: 'iron(II) sulfate heptahydrate' }],
    // No hydrate of it is known: crystals are how it looks.
    ['benzoic acid crystals 5 g', { name: 'benzoic acid', note: 'crystals' }],
    // The water in a word, of what the table knows with another count of it.
    ['copper sulfate monohydrate 5 g', { name: 'copper sulfate monohydrate' }],
    ['c.p. benzaldehyde 10.6 g', { name: 'benzaldehyde', note: 'c.p.' }],
    ['anhyd. DMF (20 mL)', { name: 'N,N-dimethylformamide', note: 'anhyd.' }],
    ['25 cc. of sulfuric acid (sp. gr. 1.84)', { name: 'sulfuric acid', form: 'strength unknown', printed: '25 mL, d 1.84' }],
  ])('%s', (line, expected) => {
    expect(chargeOf(line)).toMatchObject(expected);
  });

  test('a molarity alone is no amount of a reagent', () => {
    expect(() => chargeOf('HCl (2 M)')).toThrow('how much hydrogen chloride is charged is expected too');
    expect(() => chargeOf('2 M NaOH')).toThrow('how much sodium hydroxide');
  });

  test('a normality is asked about where a mole may have more equivalents than one', () => {
    expect(() => chargeOf('2 N H2SO4 10 mL')).toThrow('give its strength in mol/L');
    expect(() => chargeOf('1 N K2CO3 10 mL')).toThrow('give its strength in mol/L');
    expect(() => chargeOf('0.1 N KMnO4 10 mL')).toThrow('give its strength in mol/L');
  });

  test('a molarity beside the volume of a solvent is a question: its own strength, or that of what is in it', () => {
    expect(() => chargeOf('THF (20 mL, 0.5 M)')).toThrow('is 0.5 mol/L the strength of tetrahydrofuran itself');
    expect(() => chargeOf('HCl (20 mL, 2 M)')).not.toThrow();
  });

  test('an acid that is sold in several strengths is asked about, not guessed from its density', () => {
    expect(() => chargeOf('190 ml (270 g) of concentrated nitric acid, d1.42')).toThrow('is sold as 65 % w/w or 70 % w/w');
  });

  test('drops, and what is dissolved in the same line, are refused where they stand', () => {
    expect(readChargeLine('concentrated sulfuric acid (4 drops)')).toMatchObject({ ok: false, at: 28 });
    expect(readChargeLine('NaOH (2.0 g in 10 mL water)')).toMatchObject({ ok: false, at: 12 });
  });
});

describe('what takes up colour or water is weighed, and counts no moles', () => {
  const lines = ['aniline 9.3 g (0.1 mol)'];
  const ruleOf = (line: string, uses: Procedure['uses'] = []) => {
    const { route: made } = typed({ source: '', basis: aniline, product: acetanilide, uses, lines: [...lines, line] });
    const charge = made.steps[0]?.operations.at(-1);
    return charge?.do === 'charge' ? charge.rule.kind : null;
  };
  test.each(['charcoal 2 g', 'decolorizing charcoal 2 g', 'Norit 2 g', 'MgSO4 5 g', 'Na2SO4 10 g', 'Celite 5 g', 'alumina 5 g'])(
    '%s',
    (line) => {
      expect(ruleOf(line)).toBe('mass ratio');
    },
  );
  test('unless the equation uses it, or its moles are printed', () => {
    const sulfate = { material: { name: 'magnesium sulfate', formula: 'MgSO4', cas: '7487-88-9' }, coefficient: 1 };
    expect(ruleOf('magnesium sulfate 5 g', [sulfate])).toBe('equivalents');
    expect(ruleOf('magnesium sulfate 12.0 g (0.1 mol)')).toBe('equivalents');
  });
  test('neither the procedure nor the plan shows equivalents of it', () => {
    const { route: made } = typed({ source: '', basis: aniline, product: acetanilide, lines: [...lines, 'charcoal 2 g'] });
    const charges = planOf(made, [draw('product', 10)]).steps[0]?.operations.filter((one) => one.kind === 'charge');
    expect(charges?.map((one) => one.kind === 'charge' && one.equivalents?.value)).toEqual([1, undefined]);
    const known = { facts: factsOfRoute(made, reference), reference };
    const published = made.steps.flatMap((one) => [...publishedStep(one, known).charges.values()]);
    expect(published.map((one) => one.equivalents?.value)).toEqual([1, undefined]);
  });
});

describe('a ratio printed beside an amount', () => {
  test('mol % of what has no known moles leaves nothing to weigh: the printed grams are the ratio, and that is said', () => {
    // 53 mg on 1.37 g; the same by the metal: 53 mg × 10 % ÷ 106.42 g/mol = 0.0498 mmol of 14.71 mmol, 0.34 mol %.
    const lines = (catalyst: string) =>
      typed({ source: '', basis: aniline, product: acetanilide, lines: ['aniline 1.37 g', catalyst] });
    const supported = lines('10 % w/w palladium on carbon 53 mg (0.34 mol %)');
    const ruleOf = ({ route: made }: typeof supported) => {
      const charge = made.steps[0]?.operations.at(-1);
      return charge?.do === 'charge' ? charge.rule : null;
    };
    expect(ruleOf(supported)).toEqual({ kind: 'mass ratio', gramsPerGram: expect.closeTo(0.053 / 1.37, 12) });
    expect(supported.said).toEqual(['note: ratio by amount, palladium on carbon']);
    const metal = lines('10 % w/w palladium 53 mg (0.34 mol %)');
    expect(ruleOf(metal)).toEqual({ kind: 'equivalents', equivalents: expect.closeTo(0.0034, 12) });
    expect(metal.said).toEqual([]);
  });

  test('a print in mmol is said without the rounding of its doubles', () => {
    const { route: one } = typed({
      source: '',
      basis: aniline,
      product: acetanilide,
      lines: ['aniline 9.3 g', 'thiourea 0.500 g (6.02 mmol)'],
    });
    const [only] = one.steps;
    const known = { facts: factsOfRoute(one, reference), reference };
    const notice = only && publishedStep(only, known).notices.find(({ code }) => code === 'printed moles');
    expect(notice?.values.printed).toBe(0.00602);
  });

  const said = (line: string): readonly string[] =>
    typed({
      source: '',
      basis: made('benzoic acid', 'C7H6O2'),
      product: acetanilide,
      uses: [{ material: triethylamine, coefficient: 1 }],
      lines: ['benzoic acid (1.22 g, 10.0 mmol)', line],
    }).said;
  test.each([
    // 22.4 mg ÷ 224.5 = 0.10 mmol of 10 mmol: 1 mol %.
    ['palladium acetate (22.4 mg, 0.100 mmol, 1 mol%)', []],
    ['palladium acetate (22.4 mg, 0.100 mmol, 5 mol%)', ['caution: printed ratio, palladium(II) acetate']],
    ['silica gel (122 mg, 10 wt%)', []],
    ['silica gel (122 mg, 5 wt%)', ['caution: printed ratio, silica gel']],
    ['triethylamine (1.52 g, 15.0 mmol, 50 % excess)', []],
    ['triethylamine (1.52 g, 15.0 mmol, 20 % excess)', ['caution: printed ratio, triethylamine']],
    ['triethylamine (1.52 g, 15.0 mmol, 1.5 equiv)', []],
    ['triethylamine (1.52 g, 15.0 mmol, 2.0 equiv)', ['caution: printed equivalents, triethylamine']],
    // By hand: 2.98 mL × 0.9711 ÷ 284.22 = 10.18 mmol; 10.0 mmol would need 0.954 g/mL, as some suppliers give.
    ['titanium(IV) isopropoxide (2.98 mL, 10.0 mmol)', ['caution: printed by another density, titanium(IV) isopropoxide']],
    // 2.50 mL come to 8.54 mmol: no density is 17 % off.
    ['titanium(IV) isopropoxide (2.50 mL, 10.0 mmol)', ['caution: printed moles, titanium(IV) isopropoxide']],
    // Weighed: no density in it.
    ['titanium(IV) isopropoxide (2.89 g, 10.0 mmol)', ['caution: printed moles, titanium(IV) isopropoxide']],
  ])('%s', (line, expected) => {
    expect(said(line).map((one) => one.replace(/palladium.*$/, 'palladium(II) acetate'))).toEqual(expected);
  });
});
