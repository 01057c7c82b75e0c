import { hazardsOf } from '../../../core/bench/hazards.ts';
import { factsOf } from '../../../core/matter/facts.ts';
import { gramsPerMillilitre, massFraction } from '../../../core/matter/solution.ts';
import type { BottleRow } from '../../../core/port/shelf.ts';
import type { Reference } from '../../../core/reference.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { Structure } from '../../parts/structure.tsx';
import { reference } from '../../state/workbook.ts';
import { smallDigits } from './formula-text.ts';
import { StatementList } from './statement-list.tsx';

const words = shelfWords.bottle;

/** What is known of the material at this strength, every figure with its source. */
export function BottleFacts({ bottle }: { readonly bottle: BottleRow }) {
  const tables = reference.value;
  if (!tables) return null;
  const facts = factsOf(bottle.material, tables);
  const { synonyms } = bottle.material;
  return (
    <section aria-labelledby="facts-title">
      <h2 id="facts-title">{words.facts}</h2>
      <dl class="facts">
        {facts.formula !== null && <Fact name={words.formula}>{smallDigits(facts.formula)}</Fact>}
        {facts.cas !== null && <Fact name={words.cas}>{facts.cas}</Fact>}
        {facts.molarMass && (
          <Fact name={words.molarMass}>
            <Amount figure={facts.molarMass} />
          </Fact>
        )}
        {facts.smiles !== null && (
          <Fact name={words.structure}>
            <Structure smiles={facts.smiles} label={words.drawing(facts.name)} />
          </Fact>
        )}
        <AsItIs bottle={bottle} tables={tables} />
        <Density bottle={bottle} tables={tables} />
        {bottle.form.kind === 'solution' && bottle.form.strength.titrated !== undefined && (
          <Fact name="">{words.titrated(bottle.form.strength.titrated)}</Fact>
        )}
        {synonyms && synonyms.length > 0 && <Fact name={words.synonyms}>{synonyms.join(', ')}</Fact>}
        <HazardLines bottle={bottle} tables={tables} />
      </dl>
    </section>
  );
}

function Fact({ name, children }: { readonly name: string; readonly children: preact.ComponentChildren }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </>
  );
}

/** What an assay without its water comes to in what is weighed; nothing where the assay is of that already. */
function AsItIs({ bottle, tables }: { readonly bottle: BottleRow; readonly tables: Reference }) {
  if (bottle.form.kind !== 'neat' || bottle.form.assayOn === undefined) return null;
  const fraction = massFraction(factsOf(bottle.material, tables), bottle.form, tables);
  return <Fact name={words.asItIs}>{fraction.ok ? <Amount figure={fraction.figure} /> : sentence(fraction.why)}</Fact>;
}

function Density({ bottle, tables }: { readonly bottle: BottleRow; readonly tables: Reference }) {
  const facts = factsOf(bottle.material, tables);
  if (bottle.form.kind === 'neat' && facts.state !== 'liquid' && !bottle.form.density) return null;
  const density = gramsPerMillilitre(facts, bottle.form, tables);
  return <Fact name={words.density}>{density.ok ? <Amount figure={density.figure} /> : sentence(density.why)}</Fact>;
}

function HazardLines({ bottle, tables }: { readonly bottle: BottleRow; readonly tables: Reference }) {
  const facts = factsOf(bottle.material, tables);
  const hazards = hazardsOf(facts, bottle.form, tables);
  // Where the strength is not known no statement was ruled out: they are those of the strongest there is.
  const name = massFraction(facts, bottle.form, tables).ok ? words.hazards : words.hazardsUnknown;
  if (!hazards) return <Fact name={name}>{words.hazardsNone}</Fact>;
  if (hazards.statements.length === 0) return <Fact name={name}>{words.hazardsEmpty}</Fact>;
  return (
    <Fact name={name}>
      <StatementList codes={hazards.statements} tables={tables} />
    </Fact>
  );
}
