import { Molecule } from 'openchemlib';
import { moleculeOf, type StructureProblem } from './structure.ts';

/** One stroke or letter of a drawing: an SVG element's name with its attributes, and the text it holds. */
export interface Shape {
  readonly element: 'line' | 'polygon' | 'circle' | 'text' | 'path';
  readonly attributes: Readonly<Record<string, string>>;
  readonly text: string;
}

export interface Drawing {
  readonly ok: true;
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
}

/** What is taken over from the drawn SVG; colours are left out, so that a drawing follows the theme and the paper. */
const ATTRIBUTES = new Set([
  'x',
  'y',
  'x1',
  'y1',
  'x2',
  'y2',
  'cx',
  'cy',
  'r',
  'points',
  'd',
  'font-size',
  'stroke-width',
  'stroke-dasharray',
]);
const ELEMENT = /<(line|polygon|circle|text|path)\s([^>]*?)\/?>(?:([^<]*)<\/text>)?/g;

/**
 * Draws a structure as shapes for an SVG of this size, px. Only known elements and attributes are taken over: no style,
 * no script, no link.
 */
export function drawStructure(text: string, width: number, height: number): Drawing | StructureProblem {
  const molecule = moleculeOf(text, false);
  if (!(molecule instanceof Molecule)) return molecule;
  const svg = molecule.toSVG(width, height, 'structure', {
    suppressChiralText: true,
    suppressCIPParity: true,
    suppressESR: true,
    noStereoProblem: true,
    autoCrop: false,
  });
  const shapes = [...svg.matchAll(ELEMENT)]
    .filter(([whole]) => !whole.includes('class="event"'))
    .map(
      (found): Shape => ({
        element: found[1] as Shape['element'],
        attributes: Object.fromEntries(
          [...(found[2] ?? '').matchAll(/([\w-]+)="([^"]*)"/g)]
            .filter(([, name]) => ATTRIBUTES.has(name ?? ''))
            .map(([, name, value]) => [name ?? '', value ?? '']),
        ),
        text: plainText(found[3] ?? ''),
      }),
    );
  return { ok: true, width, height, shapes };
}

function plainText(text: string): string {
  return text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&');
}
