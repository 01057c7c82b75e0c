/** The form behind a material's name, e.g. "68 % w/w"; a neat material needs no word. */
export function FormWords({ words }: { readonly words: string }) {
  return words === 'neat' ? null : <span class="form-words">{words}</span>;
}
