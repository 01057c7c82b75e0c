import { structureWords } from '../words/structure-words.ts';
import { readMolecule, readStructure, type StructureProblem } from './structure.ts';

/** One stroke or letter of a drawing: an SVG element's name with its attributes, and the text it holds. */
export interface Shape {
  readonly element: 'line' | 'polygon' | 'circle' | 'text' | 'path';
  readonly attributes: Readonly<Record<string, string>>;
  readonly text: string;
}

export interface Drawing {
  readonly ok: true;
  readonly formula: string;
  /** The part of the plane that is drawn on, as an SVG's viewBox; its size is at most what was asked for, px. */
  readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly shapes: readonly Shape[];
}

/** Placing the atoms of a larger one takes more than a moment, and nobody could read it at this size. */
const MOST_DRAWN = 200;

/** What is taken over from the drawn SVG; colours are left out, so that a drawing follows the theme and the paper. */
const ATTRIBUTES = new Set('x y x1 y1 x2 y2 cx cy r points d font-size stroke-width stroke-dasharray'.split(' '));
const ELEMENT = /<(line|polygon|circle|text|path)\s([^>]*?)\/?>(?:([^<]*)<\/text>)?/g;

/**
 * Draws a structure as shapes for an SVG of this size, px. Only known elements and attributes are taken over: no style,
 * no script, no link.
 * @returns the shapes with the structure's formula, or the place and words of what is wrong with it.
 */
export function drawStructure(text: string, width: number, height: number): Drawing | StructureProblem {
  const structure = readStructure(text);
  if (!structure.ok) return structure;
  const plain = readMolecule(text, true);
  if (!plain.ok) return plain;
  if (plain.molecule.getAllAtoms() > MOST_DRAWN) return { ok: false, at: 0, words: structureWords.tooLargeToDraw(MOST_DRAWN) };
  const read = readMolecule(text, false);
  if (!read.ok) return read;
  const svg = read.molecule.toSVG(width, height, 'structure', {
    suppressChiralText: true,
    suppressCIPParity: true,
    suppressESR: true,
    noStereoProblem: true,
    autoCrop: true,
    autoCropMargin: 8,
  });
  return { ok: true, formula: structure.formula, box: boxOf(svg, width, height), shapes: shapesOf(svg) };
}

function boxOf(svg: string, width: number, height: number): Drawing['box'] {
  const found = /viewBox="(-?[\d.]+) (-?[\d.]+) ([\d.]+) ([\d.]+)"/.exec(svg)?.slice(1).map(Number);
  const [x = 0, y = 0, across = width, down = height] = found ?? [];
  return { x, y, width: across, height: down };
}

function shapesOf(svg: string): readonly Shape[] {
  return [...svg.matchAll(ELEMENT)]
    .filter(([whole]) => !whole.includes('class="event"'))
    .map(
      ([, element, attributes = '', text = '']): Shape => ({
        element: element as Shape['element'],
        attributes: Object.fromEntries(
          [...attributes.matchAll(/([\w-]+)="([^"]*)"/g)]
            .map(([, name = '', value = '']) => [name, value] as const)
            .filter(([name]) => ATTRIBUTES.has(name)),
        ),
        text: plainText(text),
      }),
    );
}

function plainText(text: string): string {
  return text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&');
}
