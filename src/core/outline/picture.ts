/**
 * A picture as plain data, drawn alike by the board, the sheet and an SVG: each brings its own pen. Coordinates are
 * millimetres of the part, x along the axis to the drawn right, y outward from the axis (up).
 */
export type Picture = { readonly items: readonly PictureItem[] };

/** What a line is, not how it looks: pens look the width and dash up. */
export type LineRole =
  | 'outline' // visible edges, the heaviest
  | 'heavy' // what this step cuts
  | 'thin' // dimension and extension lines, thread roots
  | 'centre' // axis
  | 'hidden' // what lies inside
  | 'hatch'
  | 'ghost' // the finished part inside the bar, the device that holds it
  | 'mark'; // scribed in layout fluid

export type AreaRole = 'section' | 'steel' | 'waste' | 'cutting' | 'fluid' | 'device';

export type PictureItem =
  | {
      readonly kind: 'line';
      readonly points: readonly number[];
      readonly role: LineRole;
      readonly id?: string;
    }
  | {
      readonly kind: 'area';
      readonly points: readonly number[];
      readonly role: AreaRole;
      readonly id?: string;
    }
  | {
      readonly kind: 'text';
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly align: 'start' | 'middle' | 'end';
      readonly id?: string;
    };
