import type { ExpectedBalance } from '../../../core/outcome/mass-balance.ts';
import { meritWords } from '../../../core/words/merit-words.ts';
import { UseLine } from './use-line.tsx';

const words = meritWords.balance;

/** What goes in and where it is found again, as a sum to be read downwards. */
export function MassBalance({ balance }: { readonly balance: ExpectedBalance }) {
  const { charged, water, found, rest } = balance;
  return (
    <div class="mass-balance">
      <h3>{words.title}</h3>
      <dl>
        <UseLine name={words.charged} figure={charged} />
        {water.value > 0 && <UseLine name={words.water} figure={water} />}
        {found.map((one) => (
          <UseLine key={`${one.what} ${one.material} ${one.name}`} name={words.found[one.what](one.name)} figure={one.grams} />
        ))}
        <UseLine name={words.rest} figure={rest} note={rest.value < 0 ? words.tooMuch : ''} />
      </dl>
      <p class="soft small">{words.basis}</p>
    </div>
  );
}
