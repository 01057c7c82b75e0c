/** The `for` of a label, or the label around it. */
function labelsOf(this: HTMLElement): readonly HTMLLabelElement[] {
  const around = this.closest('label');
  const named = this.id === '' ? [] : [...document.querySelectorAll('label')].filter((label) => label.htmlFor === this.id);
  return around === null || named.includes(around) ? named : [...named, around];
}

/**
 * A control's labels by one search for all labels, which happy-dom remembers until the page changes. Its own looks through the
 * whole page for each control: finding one field by its label took as long as drawing a route.
 */
export function quickLabels(): void {
  for (const control of [HTMLInputElement, HTMLButtonElement, HTMLSelectElement, HTMLTextAreaElement, HTMLOutputElement]) {
    Object.defineProperty(control.prototype, 'labels', { configurable: true, get: labelsOf });
  }
}
