import type { Spot } from './viewport.ts';

/** What is held or used besides: keys, and whether it is a finger, which pans where there is nothing to take hold of. */
export type Held = { readonly shift: boolean; readonly free: boolean; readonly finger: boolean };

/** What a pointer does on the board, told by kind. Spots are px from the board's corner. */
export type Gestures = {
  readonly click: (at: Spot, held: Held) => void;
  readonly double: (at: Spot, held: Held) => void;
  readonly hover: (at: Spot | null) => void;
  readonly pan: (dx: number, dy: number) => void;
  readonly zoom: (at: Spot, factor: number) => void;
  /** A drag wants to begin where the pointer went down. True takes it; else it pans. */
  readonly grab: (at: Spot, held: Held) => boolean;
  readonly drag: (from: Spot, to: Spot, held: Held) => void;
  readonly release: (from: Spot, to: Spot, held: Held) => void;
  readonly cancel: () => void;
  /** Whether the space bar is held, which turns every drag into a pan. */
  readonly panning: () => boolean;
};

/** How far a press may wander and still be a click, px: a finger rolls. */
const SLACK = 4;
const FINGER_SLACK = 10;
const DOUBLE_MS = 400;

type Press = { readonly from: Spot; at: Spot; mode: 'waiting' | 'drag' | 'pan' };

/** Tells clicks, double clicks, drags, pans and pinches apart on an element, for mouse, pen and fingers. */
export function listen(element: HTMLElement, to: Gestures): () => void {
  const pointers = new Map<number, Spot>();
  let press: Press | null = null;
  /** The pen that is down: the hand that holds it lies on the glass, and means nothing. */
  let pen: number | null = null;
  let last: { at: Spot; time: number } | null = null;

  const spot = (event: MouseEvent): Spot => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };

  const held = (event: PointerEvent): Held => ({
    shift: event.shiftKey,
    free: event.altKey,
    finger: event.pointerType === 'touch',
  });

  /** What fingers began is over. */
  const rest = () => {
    pointers.clear();
    if (press?.mode === 'drag') to.cancel();
    press = null;
  };

  const down = (event: PointerEvent) => {
    if (event.button > 1) return;
    if (event.pointerType === 'touch') {
      // A finger's press is told once more, as a mouse's, when it is over: that would take the keys from a field it opened.
      event.preventDefault();
      element.focus({ preventScroll: true });
    }
    if (pen !== null && event.pointerType === 'touch') return;
    if (event.pointerType === 'pen') {
      rest();
      pen = event.pointerId;
    }
    const at = spot(event);
    pointers.set(event.pointerId, at);
    element.setPointerCapture(event.pointerId);
    if (pointers.size > 1) {
      if (press?.mode === 'drag') to.cancel();
      press = null;
      return;
    }
    if (event.button === 1) event.preventDefault();
    press = { from: at, at, mode: event.button === 1 || to.panning() ? 'pan' : 'waiting' };
  };

  const move = (event: PointerEvent) => {
    const at = spot(event);
    const before = pointers.get(event.pointerId);
    if (before === undefined) return event.pointerType === 'touch' ? undefined : to.hover(at);
    if (pointers.size > 1) return pinch(event.pointerId, at);
    if (!press) return;
    const slack = event.pointerType === 'touch' ? FINGER_SLACK : SLACK;
    if (press.mode === 'waiting' && distance(press.from, at) > slack)
      press.mode = to.grab(press.from, held(event)) ? 'drag' : 'pan';
    // What is panned keeps up with the finger, from where that went down.
    if (press.mode === 'waiting') return;
    if (press.mode === 'pan') to.pan(at.x - press.at.x, at.y - press.at.y);
    if (press.mode === 'drag') to.drag(press.from, at, held(event));
    press.at = at;
    pointers.set(event.pointerId, at);
  };

  /** Two pointers: their distance zooms, their middle pans. */
  const pinch = (id: number, at: Spot) => {
    const others = [...pointers].filter(([other]) => other !== id).map(([, s]) => s);
    const [before, other] = [pointers.get(id), others[0]];
    if (before && other && others.length === 1) {
      const [was, now] = [middle(before, other), middle(at, other)];
      const factor = distance(at, other) / Math.max(distance(before, other), 1);
      to.pan(now.x - was.x, now.y - was.y);
      to.zoom(now, factor);
    }
    pointers.set(id, at);
  };

  const up = (event: PointerEvent) => {
    const known = pointers.delete(event.pointerId);
    if (event.pointerId === pen) pen = null;
    if (!known || !press) return;
    const { from, mode } = press;
    press = null;
    const at = spot(event);
    if (mode !== 'waiting') last = null;
    if (mode === 'drag') return to.release(from, at, held(event));
    if (mode === 'pan') return;
    const again = last !== null && event.timeStamp - last.time < DOUBLE_MS && distance(last.at, at) < 12;
    last = again ? null : { at, time: event.timeStamp };
    if (again) to.double(at, held(event));
    else to.click(at, held(event));
  };

  /** Two presses with one elsewhere between them are no double click. */
  const elsewhere = ({ target }: PointerEvent) => {
    if (!(target instanceof Node && element.contains(target))) last = null;
  };

  const lost = (event: PointerEvent) => {
    if (event.pointerId === pen) pen = null;
    if (!pointers.delete(event.pointerId)) return;
    if (press?.mode === 'drag') to.cancel();
    press = null;
  };

  const wheel = (event: WheelEvent) => {
    event.preventDefault();
    // Lines and pages come as few large steps, pixels as many small ones; a pinch on a pad holds Ctrl.
    const step = event.deltaY * (event.deltaMode === 0 ? 1 : 30);
    to.zoom(spot(event), Math.exp(-step * (event.ctrlKey ? 0.01 : 0.0018)));
  };

  const leave = () => to.hover(null);
  const steps = [
    ['pointerdown', down],
    ['pointermove', move],
    ['pointerup', up],
    ['pointercancel', lost],
    ['pointerleave', leave],
  ] as const;
  for (const [name, step] of steps) element.addEventListener(name, step);
  element.addEventListener('wheel', wheel, { passive: false });
  document.addEventListener('pointerdown', elsewhere, true);
  return () => {
    document.removeEventListener('pointerdown', elsewhere, true);
    for (const [name, step] of steps) element.removeEventListener(name, step);
    element.removeEventListener('wheel', wheel);
  };
}

const distance = (a: Spot, b: Spot): number => Math.hypot(a.x - b.x, a.y - b.y);
const middle = (a: Spot, b: Spot): Spot => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });
