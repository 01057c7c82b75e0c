/** What the cascade draws, as plain numbers in px; y grows downward. */
export interface MaterialBox {
  readonly material: string;
  readonly x: number;
  readonly width: number;
  readonly y: number;
  readonly height: number;
  /** Where its label stands: the bottom of a label above, the top of one below; how far it may reach to the right. */
  readonly label: {
    readonly below: boolean;
    /** A band rises beside it: it keeps to a narrow room, its name in two lines. */
    readonly rising: boolean;
    readonly y: number;
    readonly room: number;
  };
}

export interface StepBox {
  readonly step: string;
  /** Where the step's line stands. */
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
  /** The label stands to the right of the line, below the loss. */
  readonly labelWidth: number;
}

/** A point of a band's upper edge, and how the band bends on its way to it. */
export interface BandPoint {
  readonly x: number;
  readonly y: number;
  /** Bends late, so that the label under the step it comes from stays clear. */
  readonly late: boolean;
}

/** A band: its upper edge as points, and its height. */
export interface BandShape {
  readonly key: string;
  readonly material: string;
  readonly points: readonly BandPoint[];
  readonly height: number;
  readonly into: 'material' | 'step' | 'draw';
}

export interface LossShape {
  readonly step: string;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  readonly length: number;
}

export interface StockShape {
  readonly material: string;
  /** The draw it goes to directly, or null where it enters a material's block. */
  readonly draw: string | null;
  readonly x: number;
  readonly top: number;
  readonly toX: number;
  readonly toY: number;
  readonly height: number;
}

export interface RecycleShape {
  readonly key: string;
  readonly material: string;
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
  readonly down: number;
  readonly up: number;
  readonly lane: number;
  readonly height: number;
}

export interface LeftOverShape {
  readonly material: string;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  readonly length: number;
}

export interface DrawPort {
  readonly draw: string;
  /** Top of its slot in the target strip. */
  readonly slotTop: number;
  readonly y: number;
  readonly height: number;
}

export interface CascadeLayout {
  /** Width of a column. */
  readonly column: number;
  readonly columns: number;
  readonly width: number;
  readonly height: number;
  readonly materials: readonly MaterialBox[];
  readonly steps: readonly StepBox[];
  readonly bands: readonly BandShape[];
  readonly losses: readonly LossShape[];
  readonly stocks: readonly StockShape[];
  readonly recycles: readonly RecycleShape[];
  readonly leftOver: readonly LeftOverShape[];
  readonly draws: readonly DrawPort[];
}
