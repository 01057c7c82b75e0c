import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';

const WCAG = ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'];

/** What rests on colours alone, and so can differ between themes where everything else is the same. */
const OF_COLOURS = ['color-contrast', 'link-in-text-block'];

interface Looking {
  /** WCAG 2.2 A and AA; of these only what a theme can change; or axe's own advice as well. */
  readonly rules?: 'WCAG' | 'colours' | 'every rule';
  readonly without?: readonly string[];
}

/**
 * What of a page breaks the rules: each rule with the first place where it is broken.
 *
 * Run in the page itself ("legacy mode"): else axe opens a second page for each look, which puts together what it found in
 * frames of other origins. The window has none, and looking took three times as long.
 */
export async function violationsOn(page: Page, { rules = 'WCAG', without = [] }: Looking = {}): Promise<readonly string[]> {
  const axe = new AxeBuilder({ page })
    // axe names every element that passes a rule, too, unless it is told what is asked for.
    .options({ resultTypes: ['violations'] })
    .disableRules([...without])
    .setLegacyMode();
  if (rules === 'WCAG') axe.withTags(WCAG);
  if (rules === 'colours') axe.withRules(OF_COLOURS);
  const { violations } = await axe.analyze();
  return violations.map((one) => `${one.id} ${one.nodes[0]?.html}`);
}
