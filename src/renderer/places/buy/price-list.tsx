import { factsOf } from '../../../core/matter/facts.ts';
import { type Form, NEAT } from '../../../core/matter/form.ts';
import type { Material } from '../../../core/matter/material.ts';
import { shoppingWords } from '../../../core/words/shopping-words.ts';
import { route } from '../../state/plan-route.ts';
import { reference } from '../../state/workbook.ts';
import { KnownPacks } from './known-packs.tsx';

const words = shoppingWords.priceList;

/** The packs that are known of the open plan's materials, short or not. */
export function PriceList() {
  const materials = Object.entries(route.value?.materials ?? {}).filter(([, material]) => material.utility !== true);
  const tables = reference.value;
  if (materials.length === 0 || !tables) return null;
  // What the trade sells dissolved is never taken for pure because nothing was said.
  const usual = (material: Material): Form | null => (factsOf(material, tables).usuallyDissolved ? null : NEAT);
  return (
    <section class="buy-part" aria-labelledby="price-list-title">
      <header class="part-head">
        <h2 id="price-list-title">{words.title}</h2>
      </header>
      <details class="fold">
        <summary>{words.all(materials.length)}</summary>
        <ul class="buy-prices">
          {materials
            .toSorted(([, one], [, other]) => (one.name < other.name ? -1 : 1))
            .map(([key, material]) => (
              <li key={key}>
                <b>{material.name}</b>
                <KnownPacks material={material} name={material.name} usual={usual(material)} />
              </li>
            ))}
        </ul>
      </details>
    </section>
  );
}
