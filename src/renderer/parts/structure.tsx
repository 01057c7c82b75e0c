import { useEffect, useState } from 'preact/hooks';
import type { Drawing, Shape } from '../../core/structure/drawing.ts';
import type { StructureProblem } from '../../core/structure/structure.ts';
import { structureWords } from '../../core/words/structure-words.ts';

interface StructureProps {
  readonly smiles: string;
  /** What is drawn, for who cannot see it. */
  readonly label: string;
  readonly width?: number;
  readonly height?: number;
  /** Longest a bond is drawn, px: structures beside each other then look alike in size. */
  readonly bond?: number;
}

/** The drawing of a structure in the colour of the text around it. The drawing program is fetched when one is needed. */
export function Structure({ smiles, label, width = 220, height = 140, bond }: StructureProps) {
  const drawn = useDrawing(smiles, width, height);
  if (drawn && !drawn.ok) return <span class="tone-accent">{drawn.words}</span>;
  if (!drawn) return null;
  const { box } = drawn;
  const scale = bond === undefined ? 1 : Math.min(1, bond / usualBond(drawn));
  return (
    <svg
      class="structure"
      viewBox={`${box.x} ${box.y} ${box.width} ${box.height}`}
      width={box.width * scale}
      height={box.height * scale}
      role="img"
      aria-label={label}
    >
      {drawn.shapes.map(({ element: Element, attributes, text }, index) => (
        <Element key={index} {...attributes}>
          {text}
        </Element>
      ))}
    </svg>
  );
}

const drawings = new Map<string, Drawing | StructureProblem>();

/** Null until the drawing program is fetched; what was drawn once is there at once. */
function useDrawing(smiles: string, width: number, height: number): Drawing | StructureProblem | null {
  const key = `${width} ${height} ${smiles}`;
  const [tried, setTried] = useState('');
  useEffect(() => {
    if (drawings.has(key)) return undefined;
    let wanted = true;
    const draw = async () => {
      const program = await import('../../core/structure/drawing.ts').catch(() => null);
      if (program) drawings.set(key, program.drawStructure(smiles, width, height));
      if (wanted) setTried(key);
    };
    void draw();
    return () => {
      wanted = false;
    };
  }, [key]);
  return drawings.get(key) ?? (tried === key ? { ok: false, at: 0, words: structureWords.notDrawn } : null);
}

/** The middle length of the drawn bonds, px. */
function usualBond({ shapes }: Drawing): number {
  const at = (shape: Shape, name: string): number => Number(shape.attributes[name]);
  const lengths = shapes
    .filter((shape) => shape.element === 'line')
    .map((line) => Math.hypot(at(line, 'x2') - at(line, 'x1'), at(line, 'y2') - at(line, 'y1')))
    .sort((a, b) => a - b);
  return lengths[Math.floor(lengths.length / 2)] ?? 1;
}
