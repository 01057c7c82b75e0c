import type { Facts } from '../../matter/facts.ts';
import { type Form, NEAT, neatFraction } from '../../matter/form.ts';
import { computed, EXACT, entered, type Figure } from '../../quantity/figure.ts';
import { formWords } from '../../words/form-words.ts';
import { handedBack } from '../loops.ts';
import type { Network } from '../network/network.ts';
import type { FetchLine } from '../result.ts';
import type { Starts } from '../solve/starts.ts';

/**
 * Fetch lines of what must be in hand before steps that feed each other can begin. In the steady state it comes from the
 * round before, and in the end it is there again: the net need is nothing, the peak is what has not come back yet when its
 * batch begins. What stands on the shelf of it is in the plan already, and lowers what has to come back.
 * @returns none for what has no molar mass: the notice tells its moles.
 */
export function loopLines(network: Network, facts: ReadonlyMap<string, Facts>, starts: Starts): readonly FetchLine[] {
  return handedBack(network, starts)
    .flat()
    .flatMap(({ material, to, moles: all, ahead }): readonly FetchLine[] => {
      const [one, step] = [facts.get(material), network.steps[to]];
      const charge = step?.operations.find((operation) => operation.do === 'charge' && operation.material === material);
      if (!one?.molarMass || !step || charge?.do !== 'charge' || !(all > 0)) return [];
      const inHand = ahead.reduce((sum, part) => sum + part, 0);
      const moles = all * inHand;
      const form: Form = charge.form ?? NEAT;
      // Of a solution the grams of what it holds: how strong the first one is made up is the person's choice.
      const part = form.kind === 'neat' ? (neatFraction(form) ?? 1) : 1;
      const grams = (moles * one.molarMass.value) / part;
      const how = 'what a later step has not handed back yet ÷ assay: the first batches have it from nowhere else';
      const peak: Figure<'g'> = computed(`${one.name} in hand`, grams, 'g', how, [
        entered(`${one.name} not handed back yet`, moles, 'mol', 'the plan'),
        one.molarMass,
      ]);
      const need = entered(`${one.name} used up`, 0, 'g', 'it is made again by the last round', EXACT);
      const onHand = entered(`${one.name} on hand`, 0, 'g', 'the shelf, after what the plan takes of it', EXACT);
      return [
        {
          id: `${material}: in hand for ${step.id}`,
          material,
          name: one.name,
          form: form.kind === 'neat' ? form : NEAT,
          formWords: formWords(form.kind === 'neat' ? form : NEAT),
          unit: 'g',
          need,
          peak,
          onHand,
          short: computed(`${one.name} short`, grams, 'g', 'needed − on hand', [peak, onHand]),
          status: 'short',
          place: '',
          bottles: [],
          passedOver: [],
          others: [],
          makeUp: null,
          uses: [{ step: step.id, operation: charge.id, amount: grams / inHand }],
          comesBack: ahead.map((part) => part / inHand),
        },
      ];
    });
}
