/** What the drawing needs of whatever it is drawn with: a canvas has it all, and so has an SVG that is being written. */
export type Pen = Pick<
  CanvasRenderingContext2D,
  | 'arc'
  | 'beginPath'
  | 'closePath'
  | 'fill'
  | 'fillRect'
  | 'fillStyle'
  | 'fillText'
  | 'font'
  | 'globalAlpha'
  | 'lineCap'
  | 'lineJoin'
  | 'lineTo'
  | 'lineWidth'
  | 'moveTo'
  | 'quadraticCurveTo'
  | 'roundRect'
  | 'setLineDash'
  | 'stroke'
  | 'strokeStyle'
> & {
  measureText(text: string): { readonly width: number };
  /** Told before and after the pieces of one label, where that matters: an SVG keeps them as one text. */
  label?(begins: boolean): void;
};
