import { BoardStage } from './board-stage.ts';
import type { Desk } from './desk.svelte.ts';
import { onThemeChange, readInks } from './inks.ts';
import { labelMeasure } from './label.ts';

/** Puts the canvas of the board into an element once the font is there; what follows is only pushed to it. Returns what ends it. */
export function startStage(
  desk: Desk,
  element: HTMLDivElement,
  started: () => void,
): (() => void) | undefined {
  const pen = document.createElement('canvas').getContext('2d');
  if (!pen) return;
  let gone = false;
  const style = () => {
    const inks = readInks(element);
    const font = { family: inks.family, size: 13.5 };
    return { inks, font, measure: labelMeasure(pen, font) };
  };
  /** The inks, and the width of letters that another font draws otherwise: what stays as it was is not laid out anew. */
  let known = '';
  const restyle = () => {
    const fresh = style();
    const looks = JSON.stringify([fresh.inks, fresh.measure('AØ½ 0123456789 mil')]);
    if (looks === known) return;
    known = looks;
    desk.paper.style = fresh;
  };
  const begin = () => {
    if (gone) return;
    restyle();
    desk.stage = new BoardStage(element, style());
    started();
  };
  void document.fonts.load(`14px ${readInks(element).family}`, 'AØ½').then(begin, begin);
  const unwatch = onThemeChange(restyle);
  document.fonts.addEventListener('loadingdone', restyle);
  return () => {
    gone = true;
    unwatch();
    document.fonts.removeEventListener('loadingdone', restyle);
    desk.stage?.destroy();
    desk.stage = null;
  };
}

/** Keeps the size of the window that the paper lies under. Returns what ends it. */
export function watchSize(desk: Desk, element: HTMLElement): () => void {
  const look = () => {
    const { clientWidth: width, clientHeight: height } = element;
    const { window } = desk.paper;
    if (width !== window.width || height !== window.height) desk.paper.window = { width, height };
  };
  const observer = new ResizeObserver(look);
  observer.observe(element);
  look();
  return () => observer.disconnect();
}
