import { Fragment } from 'preact';
import type { Merit, StepMerit } from '../../../core/outcome/merit.ts';
import type { PlanResult, StepPlan } from '../../../core/plan/result.ts';
import { meritWords } from '../../../core/words/merit-words.ts';
import { Fold } from '../../parts/fold.tsx';
import { MassBalance } from './mass-balance.tsx';
import { UseLine as Line } from './use-line.tsx';
import { merit } from '../../state/merit-result.ts';

const words = meritWords;

/** The whole plan's use of material: overall yields, mass in per gram out, cost; closed until it is asked for. */
export function UseOfMaterial({ result }: { readonly result: PlanResult }) {
  if (!result.solved) return null;
  return (
    <Fold kind="use-of-material" title={words.title}>
      <PlanUse result={result} />
    </Fold>
  );
}

function PlanUse({ result }: { readonly result: PlanResult }) {
  const found = merit.value;
  if (!found) return null;
  const name = (material: string): string => result.materials[material]?.name ?? material;
  return (
    <>
      <dl>
        {Object.entries(found.overall).map(([material, { longest, byStart }]) => (
          <Fragment key={material}>
            <Line
              name={words.overallOf(name(material))}
              figure={longest.percent}
              note={words.from(name(longest.start), longest.steps.length)}
            />
            {byStart
              .filter((one) => one.start !== longest.start)
              .map((one) => (
                <Line key={one.start} name={words.from(name(one.start), one.steps.length)} figure={one.percent} />
              ))}
          </Fragment>
        ))}
        {found.whole && <Whole whole={found.whole} />}
      </dl>
      {found.whole?.balance && <MassBalance balance={found.whole.balance} />}
      <p class="soft small">{words.convention}</p>
    </>
  );
}

function Whole({ whole }: { readonly whole: NonNullable<Merit['whole']> }) {
  return (
    <>
      <MassLines use={whole} />
      <CostLines use={whole} />
    </>
  );
}

function CostLines({ use }: { readonly use: Pick<StepMerit, 'cost' | 'costPerGram'> }) {
  const { cost, costPerGram } = use;
  const missing = cost.unpriced.length > 0;
  return (
    <>
      <Line
        name={words.cost}
        figure={cost.known.value > 0 || !missing ? cost.known : null}
        note={missing ? words.unpriced(cost.unpriced) : ''}
      />
      {costPerGram && <Line name={words.costPerGram} figure={costPerGram} />}
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
export function StepUse({ step }: { readonly step: StepPlan }) {
  if (!step.active) return null;
  return (
    <Fold kind="step-use" title={words.title}>
      <OneStepUse step={step.id} />
    </Fold>
  );
}

function OneStepUse({ step }: { readonly step: string }) {
  const found = merit.value?.steps.find((one) => one.step === step);
  if (!found) return null;
  return (
    <>
      <dl>
        {found.cumulative && <Line name={words.cumulative} figure={found.cumulative.percent} />}
        {found.atomEconomy && <Line name={words.atomEconomy} figure={found.atomEconomy} />}
        {found.massEfficiency && <Line name={words.massEfficiency} figure={found.massEfficiency} />}
        <MassLines use={found} />
        <CostLines use={found} />
      </dl>
      {found.balance && <MassBalance balance={found.balance} />}
    </>
  );
}
