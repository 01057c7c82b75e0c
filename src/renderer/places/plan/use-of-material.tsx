import type { Merit, StepMerit } from '../../../core/outcome/merit.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import type { Figure } from '../../../core/quantity/figure.ts';
import { meritWords } from '../../../core/words/merit-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { merit } from '../../state/merit-result.ts';

const words = meritWords;

/** The whole plan's use of material: overall yields, mass in per gram out, cost; closed until it is asked for. */
export function UseOfMaterial({ result }: { readonly result: PlanResult }) {
  const found = merit.value;
  if (!found) return null;
  return (
    <details class="fold use-of-material">
      <summary>{words.title}</summary>
      <dl>
        {Object.entries(found.overall).map(([material, { longest }]) => (
          <Line
            key={material}
            name={words.overallOf(result.materials[material]?.name ?? material)}
            figure={longest.percent}
            note={words.from(result.materials[longest.start]?.name ?? longest.start, longest.steps.length)}
          />
        ))}
        {found.whole && <Whole whole={found.whole} />}
      </dl>
      <p class="soft small">{words.convention}</p>
    </details>
  );
}

function Whole({ whole }: { readonly whole: NonNullable<Merit['whole']> }) {
  const { cost } = whole;
  const missing = cost.unpriced.length > 0;
  return (
    <>
      <MassLines use={whole} />
      <Line
        name={words.cost}
        figure={cost.known.value > 0 || !missing ? cost.known : null}
        note={missing ? words.unpriced(cost.unpriced) : ''}
      />
      {whole.costPerGram && <Line name={words.costPerGram} figure={whole.costPerGram} />}
    </>
  );
}

function MassLines({ use }: { readonly use: Pick<StepMerit, 'intensity' | 'intensityWithoutWater' | 'waste' | 'unweighed'> }) {
  if (!use.intensity) return <Line name={words.intensity} figure={null} note={words.unweighed(use.unweighed)} />;
  return (
    <>
      <Line name={words.intensity} figure={use.intensity} />
      <Line name={words.withoutWater} figure={use.intensityWithoutWater} />
      <Line name={words.waste} figure={use.waste} />
    </>
  );
}

/** In the foot of a step's card: what of the material it takes ends up in its product. */
export function StepUse({ step }: { readonly step: string }) {
  const found = merit.value?.steps.find((one) => one.step === step);
  if (!found) return null;
  return (
    <details class="fold step-use">
      <summary>{words.title}</summary>
      <dl>
        {found.atomEconomy && <Line name={words.atomEconomy} figure={found.atomEconomy} />}
        {found.massEfficiency && <Line name={words.massEfficiency} figure={found.massEfficiency} />}
        <MassLines use={found} />
      </dl>
    </details>
  );
}

function Line({ name, figure, note = '' }: { readonly name: string; readonly figure: Figure | null; readonly note?: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{figure ? <Amount figure={figure} /> : <span class="soft">{words.unknown}</span>}</dd>
      {note !== '' && <dd class="use-note">{note}</dd>}
    </div>
  );
}
