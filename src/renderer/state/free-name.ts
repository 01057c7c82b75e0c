/** A name nothing has yet: the wanted one, or with the next free number behind it. */
export function freeName(wanted: string, taken: ReadonlySet<string>): string {
  if (!taken.has(wanted)) return wanted;
  const plain = wanted.replace(/ \d+$/, '');
  let number = 2;
  while (taken.has(`${plain} ${number}`)) number += 1;
  return `${plain} ${number}`;
}
