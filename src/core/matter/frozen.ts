/** Ice, crushed ice, snow, dry ice: solid as it is handled, whatever is known of the liquid or gas it becomes. */
const FROZEN = /^(?:(?:crushed|cracked|chipped|finely|fine|powdered)\s+)*(?:(?:dry[\s-]?)?ice|snow)$/i;
/** Ice in water: poured where it is given by volume, weighed where it is given by mass. */
const SLUSH = /^(?:(?:crushed|cracked)\s+)?(?:ice\s?(?:[\s/–-]|and)\s?water|water\s?(?:[/–-]|and)\s?ice)$/i;

/** Whether a material's name says that it is handled frozen, and so weighed. */
export function isFrozen(name: string): boolean {
  return FROZEN.test(name.trim());
}

/** Whether a material's name says ice and water together. */
export function isSlush(name: string): boolean {
  return SLUSH.test(name.trim());
}
