import { useEffect, useState } from 'preact/hooks';
import type { Drawing } from '../../core/structure/drawing.ts';
import type { StructureProblem } from '../../core/structure/structure.ts';
import { structureWords } from '../../core/words/structure-words.ts';

interface StructureProps {
  readonly smiles: string;
  /** What is drawn, for who cannot see it. */
  readonly label: string;
  readonly width?: number;
  readonly height?: number;
}

/** The drawing of a structure in the colour of the text around it. The drawing program is fetched when one is needed. */
export function Structure({ smiles, label, width = 220, height = 140 }: StructureProps) {
  const [drawn, setDrawn] = useState<Drawing | StructureProblem | null>(null);
  useEffect(() => {
    let wanted = true;
    const draw = async () => {
      const program = await import('../../core/structure/drawing.ts').catch(() => null);
      if (wanted) setDrawn(program?.drawStructure(smiles, width, height) ?? { ok: false, at: 0, words: structureWords.notDrawn });
    };
    void draw();
    return () => {
      wanted = false;
    };
  }, [smiles, width, height]);
  if (drawn && !drawn.ok) return <span class="tone-accent">{drawn.words}</span>;
  if (!drawn) return null;
  const { box } = drawn;
  return (
    <svg
      class="structure"
      viewBox={`${box.x} ${box.y} ${box.width} ${box.height}`}
      width={box.width}
      height={box.height}
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
