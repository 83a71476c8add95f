/** How the drawing lies under the window of the board: `scale` px per mm, and where the first face on the axis stands. */
export type Viewport = { readonly scale: number; readonly x: number; readonly y: number };
export type Spot = { readonly x: number; readonly y: number };
export type Size = { readonly width: number; readonly height: number };

export const toScreen = (view: Viewport, { x, y }: Spot): Spot => ({
  x: view.x + x * view.scale,
  y: view.y - y * view.scale,
});

export const toDrawing = (view: Viewport, { x, y }: Spot): Spot => ({
  x: (x - view.x) / view.scale,
  y: (view.y - y) / view.scale,
});

export const panBy = (view: Viewport, dx: number, dy: number): Viewport => ({
  ...view,
  x: view.x + dx,
  y: view.y + dy,
});

/** Zooms so that what lies under `at` stays there. Between a hundredth of a pixel and 5000 pixels a millimetre. */
export function zoomAt(view: Viewport, at: Spot, factor: number): Viewport {
  const scale = Math.min(Math.max(view.scale * factor, 0.01), 5000);
  const real = scale / view.scale;
  return { scale, x: at.x - (at.x - view.x) * real, y: at.y - (at.y - view.y) * real };
}

/** The viewport that shows all points of a picture (millimetres, y up) in a window, with room for its texts. */
export function fitPoints(points: readonly Spot[], window: Size): Viewport {
  const [xs, ys] = [points.map((p) => p.x), points.map((p) => p.y)];
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  if (points.length === 0) return { scale: 1, x: window.width / 2, y: window.height / 2 };
  const scale = Math.min(
    Math.max(window.width - 80, 20) / Math.max(right - left, 1e-3),
    Math.max(window.height - 60, 20) / Math.max(high - low, 1e-3),
  );
  return {
    scale,
    x: window.width / 2 - ((left + right) / 2) * scale,
    y: window.height / 2 + ((low + high) / 2) * scale,
  };
}
