import { paperPageWords } from '../../core/words/paper-page-words.ts';

/** On paper the standing sentence is in the margin of every page; on the screen it stands under the sheet. */
export function ScreenFoot() {
  return <p class="screen-foot">{paperPageWords.standing}</p>;
}
