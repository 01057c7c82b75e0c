/** Signs of a name that its column holds on three lines or fewer. */
const LONGEST = 60;
/** Signs of a title that stays on two lines in its full size. */
const LONGEST_TITLE = 56;

/** Whether a name needs the width of the page. */
export function isLong(name: string): boolean {
  return name.length > LONGEST;
}

/** The class of a title: set smaller where it is long. */
export function titleClass(title: string): string | undefined {
  return title.length > LONGEST_TITLE ? 'long-title' : undefined;
}
