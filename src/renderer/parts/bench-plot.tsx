import type { PlotPicture } from '../../core/bench/plot-picture.ts';

/** A plot as it was drawn; black on white on paper, in the theme's tones on screen, by its style sheet. */
export function PlotOfPoints({ picture, read }: { readonly picture: PlotPicture; readonly read: string }) {
  return (
    <svg
      class="bench-plot-picture"
      viewBox={`0 0 ${picture.width} ${picture.height}`}
      role="img"
      aria-label={read === '' ? picture.label : `${picture.label}. ${read}`}
    >
      {picture.shapes.map((shape, at) => (
        <path key={at} class={`plot-${shape.kind}`} d={shape.path} />
      ))}
      {picture.points.map((point, at) => (
        <circle key={at} class="plot-point" cx={point.x} cy={point.y} r={3} />
      ))}
      {picture.words.map((word, at) => (
        <text key={at} x={word.x} y={word.y} text-anchor={word.anchor}>
          {word.text}
        </text>
      ))}
    </svg>
  );
}
