/** The type shrinks by this part at a time. */
const STEP = 0.96;
/** mm; smaller is not read on a bottle. */
const SMALLEST = 1.55;
/** A long name takes two lines; then it shrinks. */
const NAME_LINES = 2;
const NAME_LEAST = 0.62;

/**
 * Makes every label fit its size: a name over two lines is set smaller first, then all of the label. Nothing is ever
 * cut off; labels that hold too much even so are named.
 */
export function fitLabels(root: ParentNode): readonly string[] {
  return [...root.querySelectorAll<HTMLElement>('.label')].flatMap((label) => {
    fitName(label);
    let size = parseFloat(label.style.fontSize);
    while (runsOver(label) && size > SMALLEST) {
      size *= STEP;
      label.style.fontSize = `${size.toFixed(3)}mm`;
    }
    return runsOver(label) ? [label.dataset['label'] ?? ''] : [];
  });
}

function fitName(label: HTMLElement): void {
  const name = label.querySelector<HTMLElement>('.label-name');
  if (!name) return;
  for (let size = 1; size > NAME_LEAST && linesOf(name) > NAME_LINES; size *= STEP) {
    name.style.setProperty('--name', String(size * STEP));
  }
}

function linesOf(element: HTMLElement): number {
  return Math.round(element.getBoundingClientRect().height / parseFloat(getComputedStyle(element).lineHeight));
}

/** Half a pixel is rounding. */
const ROUNDING = 0.6;

function runsOver(label: HTMLElement): boolean {
  return label.scrollHeight > label.clientHeight + ROUNDING || label.scrollWidth > label.clientWidth + ROUNDING;
}
