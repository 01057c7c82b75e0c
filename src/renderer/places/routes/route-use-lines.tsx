import { formatAmount, formatSignificant } from '../../../core/quantity/format.ts';
import { entered } from '../../../core/quantity/figure.ts';
import type { RouteUse } from '../../../core/run/route-use.ts';
import { routesWords } from '../../../core/words/routes-words.ts';
import { clockTime } from '../../parts/day-text.ts';
import { decimalMark } from '../../parts/locale.ts';
import { routeUses } from '../../state/route-uses.ts';

const words = routesWords.use;

/** In the list of routes: when it was last used, its largest run, its mean overall yield. */
export function RouteUseLines({ id }: { readonly id: number }) {
  const use = routeUses.value.get(id);
  if (!use) return null;
  const last = use.last === null ? words.never : words.last(clockTime(use.last));
  return (
    <>
      <span class="small soft">
        {last} · {largestText(use)}
      </span>
      {meanText(use) !== '' && <span class="small soft">{meanText(use)}</span>}
    </>
  );
}

function largestText({ largest }: RouteUse): string {
  if (!largest) return words.noRun;
  const { text, unit } = formatAmount(entered('largest run', largest.grams, 'g', 'its record', 4), decimalMark);
  return words.largest(`${text} ${unit}`, largest.material);
}

function meanText({ meanOverallPercent, unrun }: RouteUse): string {
  if (meanOverallPercent !== null) return words.mean(formatSignificant(meanOverallPercent, 3, decimalMark));
  return unrun > 0 ? words.meanUnknown(unrun) : '';
}
