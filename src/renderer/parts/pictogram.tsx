import type { ComponentChildren } from 'preact';
import { labelWords } from '../../core/words/label-words.ts';

/** A GHS hazard pictogram: a black symbol on white in a red diamond standing on its point (UN GHS 1.4.10.4); drawn here. */
export function Pictogram({ code }: { readonly code: string }) {
  return (
    <svg class="pictogram" viewBox="0 0 100 100" role="img" aria-label={labelWords.pictograms[code] ?? code}>
      <path d="M50 3.5 96.5 50 50 96.5 3.5 50Z" fill="#fff" stroke="#e2001a" stroke-width="5" stroke-linejoin="miter" />
      {SYMBOLS[code] ?? null}
    </svg>
  );
}

const FLAME =
  'M51 19C54 31 66 35 66 49C66 59 59 66 50 66C41 66 34 59 34 50C34 42 39 39 40 32C43 36 44 39 45 42C50 37 53 28 51 19Z';
const FLAME_CORE = 'M50 65C44 65 42 60 43 56C44 52 48 50 48 45C53 49 58 53 58 58C58 62 55 65 50 65Z';

function Flame() {
  return (
    <>
      <path d={FLAME} />
      <path d={FLAME_CORE} fill="#fff" />
    </>
  );
}

const SYMBOLS: Readonly<Record<string, ComponentChildren>> = {
  GHS01: (
    <g>
      <circle cx="44" cy="61" r="13" />
      <path d="M55 50 59 41 63 47 74 38 68 49 77 53 67 55 70 65 61 57 56 60Z" />
      <path d="M49 45 46 33 54 41 57 25 62 38 55 46Z" />
      <path d="M38 44 30 36M32 52 22 50M58 70 66 75M47 79 49 84" stroke="#000" stroke-width="4" stroke-linecap="round" />
    </g>
  ),
  GHS02: (
    <g>
      <Flame />
      <path d="M33 70h34v5H33Z" />
    </g>
  ),
  GHS03: (
    <g>
      <circle cx="50" cy="62" r="11" fill="none" stroke="#000" stroke-width="5.5" />
      <path d="M51 18C53 28 64 32 63 45C62 49 60 51 58 52C55 49 45 49 42 52C39 50 37 47 37 43C37 37 41 35 42 30C45 33 45 36 46 38C50 34 52 26 51 18Z" />
      <path d="M50 48C47 48 46 45 47 43C48 41 50 40 50 37C53 39 55 42 54 45C53 47 52 48 50 48Z" fill="#fff" />
      <path d="M33 77h34v4.5H33Z" />
    </g>
  ),
  GHS04: (
    <g transform="rotate(-28 50 50)">
      <path d="M28 43H64C68 43 70 46 73 47H78V53H73C70 54 68 57 64 57H28C24 57 22 54 22 50C22 46 24 43 28 43Z" />
      <path d="M78 44h3v12h-3Z" />
      <path d="M30 47.5H62" stroke="#fff" stroke-width="2.5" stroke-linecap="round" />
    </g>
  ),
  GHS05: (
    <g>
      <path d="M24 33 41 25 44 31 27 39C23 40 21 35 24 33Z" />
      <path d="M76 33 59 25 56 31 73 39C77 40 79 35 76 33Z" />
      <path d="M39 36v8M35 40v5M43 34v7" stroke="#000" stroke-width="2.6" stroke-linecap="round" />
      <path d="M61 36v8M65 40v5M57 34v7" stroke="#000" stroke-width="2.6" stroke-linecap="round" />
      <path d="M22 58H33C34 62 36 63 39 63C42 63 44 61 45 58H48V69H22Z" />
      <path d="M53 56C56 54 58 54 59 56C60 60 65 60 66 56C70 54 76 56 80 59C78 63 74 67 70 69H54C52 66 52 59 53 56Z" />
    </g>
  ),
  GHS06: (
    <g>
      <path d="M50 22C60 22 66 28 66 37C66 42 64 45 61 47V54H39V47C36 45 34 42 34 37C34 28 40 22 50 22Z" />
      <ellipse cx="43" cy="39" rx="4.5" ry="4.8" fill="#fff" />
      <ellipse cx="57" cy="39" rx="4.5" ry="4.8" fill="#fff" />
      <path d="M50 43 53 49H47Z" fill="#fff" />
      <path d="M44 50v4.5M48 51v3.5M52 51v3.5M56 50v4.5" stroke="#fff" stroke-width="1.6" />
      <path d="M30 58 70 74M70 58 30 74" stroke="#000" stroke-width="5.5" stroke-linecap="round" />
      <g>
        <circle cx="29" cy="56.5" r="3.6" />
        <circle cx="28" cy="60" r="3.4" />
        <circle cx="71" cy="56.5" r="3.6" />
        <circle cx="72" cy="60" r="3.4" />
        <circle cx="29" cy="75.5" r="3.6" />
        <circle cx="28" cy="72" r="3.4" />
        <circle cx="71" cy="75.5" r="3.6" />
        <circle cx="72" cy="72" r="3.4" />
      </g>
    </g>
  ),
  GHS07: (
    <g>
      <path d="M44 26C44 20 56 20 56 26L53.5 57C53 60 47 60 46.5 57Z" />
      <circle cx="50" cy="69.5" r="6" />
    </g>
  ),
  GHS08: (
    <g>
      <circle cx="50" cy="29" r="9.5" />
      <path d="M29 76C29 56 33 46 42 42C45 45 55 45 58 42C67 46 71 56 71 76Z" />
      <path d="M50 46 53 55 62 51 58 60 67 63 58 66 62 75 53 71 50 76 47 71 38 75 42 66 33 63 42 60 38 51 47 55Z" fill="#fff" />
    </g>
  ),
  GHS09: (
    <g>
      <path d="M20 67C30 64 40 68 50 66C60 64 70 68 80 65V69C70 72 60 68 50 70C40 72 30 68 20 71Z" />
      <path d="M37 66 39 46 31 38 34 36 39 41 38 26H42L42 37 49 29 52 31 43 42 45 66Z" />
      <path d="M54 60C59 52 70 50 76 56L82 51V64L76 60C70 67 59 67 54 60Z" />
      <circle cx="61" cy="58" r="2" fill="#fff" />
    </g>
  ),
};
