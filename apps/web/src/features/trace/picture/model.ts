/** How surely an amount is known to have gone that way, or what is said of it: never shown by colour alone. */
export type BandLook = 'certain' | 'possible' | 'gate' | 'unknown';

/** A lot in the picture, or those of one column that are folded into one. */
export interface DrawnLot {
  readonly id: string;
  /** How many columns it is from the lot that was asked for. */
  readonly layer: number;
  readonly name: string;
  readonly code: string | null;
  readonly at: string | null;
  /** The lot's page; null where several are folded into one. */
  readonly lot: string | null;
  /** How wide it is drawn, in the unit of the picture. A width states no amount: what is stated is what the trace gives. */
  readonly weight: number;
  readonly held: boolean;
  /** How many lots stand in this one, where it is more than one. */
  readonly folded: number;
}

export interface Flow {
  readonly from: string;
  /** A lot or an end. */
  readonly to: string;
  readonly weight: number;
  readonly look: BandLook;
}

export interface Flows {
  readonly unit: 'mg' | 'pieces';
  readonly lots: readonly DrawnLot[];
  readonly flows: readonly Flow[];
  /** The ends in the order of the table. */
  readonly ends: readonly string[];
}

/** One line of the table beside the picture: an end, with every band that leads to it. */
export interface EndLine {
  readonly id: string;
  readonly look: BandLook;
  readonly from: readonly { readonly lot: string; readonly weight: number; readonly look: BandLook }[];
}

/** Where a line of the table stands beside the picture. */
export interface Box {
  readonly top: number;
  readonly height: number;
}
export interface Placed extends Box {
  readonly id: string;
  readonly x: number;
}
export interface Band {
  readonly id: string;
  readonly flow: Flow;
  readonly width: number;
  /** Where it begins and ends, by the middle of its width. */
  readonly from: readonly [x: number, y: number];
  readonly to: readonly [x: number, y: number];
  readonly path: string;
}
export interface Layout {
  readonly width: number;
  readonly height: number;
  readonly lots: readonly Placed[];
  readonly ends: readonly Placed[];
  readonly bands: readonly Band[];
}
export interface Sizes {
  /** Pixels for each unit of weight. */
  readonly scale: number;
  /** From one column to the next. */
  readonly column: number;
  /** Left of the first column. */
  readonly start: number;
  /** The least height that a lot with its label takes, and that an end does. */
  readonly slot: number;
  readonly top: number;
  /** Mirrored: the lot that was asked for stands on the right. */
  readonly mirrored: boolean;
}
