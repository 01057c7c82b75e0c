/** All lengths in px. */
export const CASCADE = {
  /** Room each draw takes in the target strip; its band arrives at the middle. */
  drawSlot: 96,
  least: { column: 132, height: 312 },
  /** Below this width of a column there is room for the chosen step's words only. */
  words: 92,
  /** Strokes over a step's line, one for each batch, up to so many. */
  ticks: { most: 8, apart: 4, long: 6 },
  /** Height all bands of the fullest layer share. */
  bands: 108,
  left: 4,
  /** Bands run this far past the last column. */
  tail: 56,
  arrow: 10,
  /** Parts of a column's width: where a material's block ends, where the step stands. */
  block: 0.28,
  marker: 0.42,
  /** How far a material's label may reach, as a part of the column. */
  label: 0.66,
  besideRise: 0.34,
  leastRoom: 86,
  gap: 6,
  /** Between a block and its label; radius of a step's circle with some air. */
  labelGap: 4,
  circle: 14,
  pad: {
    material: { above: 64, below: 6 },
    step: { above: 16, below: 78 },
    'way point': { above: 8, below: 8 },
    draw: { above: 0, below: 0 },
  },
  /** Stock comes down this far into its block. */
  stockDrop: 34,
  lossLength: 60,
  recycleLane: 26,
  /** A loop is drawn at most this thick: what is recovered can be far more than what flows. */
  thickestLoop: { ofBlock: 14, ofOther: 5 },
} as const;
