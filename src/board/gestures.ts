import type { Spot } from './viewport.ts';

/** What is held or used besides: keys, and whether it is a finger, which pans where there is nothing to take hold of. */
export type Held = { readonly shift: boolean; readonly free: boolean; readonly finger: boolean };

/** What a pointer does on the board, told by kind. Spots are px from the board's corner. */
export type Gestures = {
  readonly click: (at: Spot, held: Held) => void;
  readonly double: (at: Spot, held: Held) => void;
  /** A finger rests, as Shift is to the mouse. True where that did something: its lifting is then no click. */
  readonly rest: (at: Spot) => boolean;
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

/** How far a press may stray before it is a drag, and how far apart two of a double click may be, px: a finger is less steady. */
const SLACK = { fine: 4, finger: 9 } as const;
const DOUBLE = { fine: 12, finger: 24 } as const;
const DOUBLE_MS = 400;
/** A finger that stays in its place for so long rests there. */
const REST_MS = 450;

/** `rests`: a finger stayed for a while; `done`: and that was heard, so that lifting it is no click. */
type Press = {
  readonly from: Spot;
  at: Spot;
  mode: 'waiting' | 'drag' | 'pan';
  rests?: boolean;
  done?: boolean;
};
const touches = (event: PointerEvent): boolean => event.pointerType === 'touch';

/** Tells clicks, double clicks, drags, pans and pinches apart on an element, for mouse, pen and fingers. */
export function listen(element: HTMLElement, to: Gestures): () => void {
  const pointers = new Map<number, Spot>();
  let press: Press | null = null;
  let last: { at: Spot; time: number } | null = null;
  let resting: ReturnType<typeof setTimeout> | undefined;
  /** The pen that is down: the hand that holds it lies on the glass, and means nothing. */
  let pen: number | null = null;

  const spot = (event: MouseEvent): Spot => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };

  const held = (event: PointerEvent): Held => ({
    shift: event.shiftKey || press?.rests === true,
    free: event.altKey,
    finger: touches(event) && !press?.rests,
  });
  const kind = (event: PointerEvent) => (touches(event) ? 'finger' : 'fine');

  const begin = (next: Press | null) => {
    clearTimeout(resting);
    press = next;
  };
  /** A finger that has not strayed by then rests; what it takes hold of afterwards it takes as the mouse would. */
  const awaitRest = (waiting: Press) => {
    resting = setTimeout(() => {
      if (press !== waiting || waiting.mode !== 'waiting') return;
      waiting.rests = true;
      waiting.done = to.rest(waiting.from);
    }, REST_MS);
  };

  const down = (event: PointerEvent) => {
    if (event.button > 1) return;
    if (touches(event)) {
      // A finger's press is told once more, as a mouse's, when it is over: that would take the keys from a field it opened.
      event.preventDefault();
      element.focus({ preventScroll: true });
    }
    if (pen !== null && touches(event)) return;
    if (event.pointerType === 'pen') {
      // A hand that lay there before the pen came down meant nothing either.
      if (press?.mode === 'drag') to.cancel();
      pointers.clear();
      pen = event.pointerId;
    }
    const at = spot(event);
    pointers.set(event.pointerId, at);
    element.setPointerCapture(event.pointerId);
    if (pointers.size > 1) {
      if (press?.mode === 'drag') to.cancel();
      return begin(null);
    }
    if (event.button === 1) event.preventDefault();
    const next: Press = { from: at, at, mode: event.button === 1 || to.panning() ? 'pan' : 'waiting' };
    begin(next);
    if (touches(event)) awaitRest(next);
  };

  const move = (event: PointerEvent) => {
    const at = spot(event);
    const before = pointers.get(event.pointerId);
    if (before === undefined) return touches(event) ? undefined : to.hover(at);
    if (pointers.size > 1) return pinch(event.pointerId, at);
    if (!press) return;
    if (press.mode === 'waiting' && distance(press.from, at) > SLACK[kind(event)])
      press.mode = to.grab(press.from, held(event)) ? 'drag' : 'pan';
    // What is panned keeps up with the pointer, from where that went down.
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
    const { from, mode, done } = press;
    const how = held(event);
    begin(null);
    const at = spot(event);
    if (mode !== 'waiting' || done) last = null;
    if (mode === 'drag') return to.release(from, at, how);
    if (mode === 'pan' || done) return;
    const near = DOUBLE[kind(event)];
    const again = last !== null && event.timeStamp - last.time < DOUBLE_MS && distance(last.at, at) < near;
    last = again ? null : { at, time: event.timeStamp };
    if (again) to.double(at, how);
    // What was meant is where it went down: a finger rolls as it is lifted.
    else to.click(from, how);
  };

  /** Two presses with one elsewhere between them are no double click. */
  const elsewhere = ({ target }: PointerEvent) => {
    if (!(target instanceof Node && element.contains(target))) last = null;
  };

  const lost = (event: PointerEvent) => {
    if (event.pointerId === pen) pen = null;
    if (!pointers.delete(event.pointerId)) return;
    if (press?.mode === 'drag') to.cancel();
    begin(null);
  };

  /** Esc gives up what is dragged, wherever the keys are just now, and means nothing else then. */
  const giveUp = (event: KeyboardEvent) => {
    if (event.key !== 'Escape' || press?.mode !== 'drag') return;
    event.preventDefault();
    event.stopPropagation();
    press = null;
    to.cancel();
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
  document.addEventListener('keydown', giveUp, true);
  return () => {
    document.removeEventListener('keydown', giveUp, true);
    document.removeEventListener('pointerdown', elsewhere, true);
    for (const [name, step] of steps) element.removeEventListener(name, step);
    element.removeEventListener('wheel', wheel);
    clearTimeout(resting);
  };
}

const distance = (a: Spot, b: Spot): number => Math.hypot(a.x - b.x, a.y - b.y);
const middle = (a: Spot, b: Spot): Spot => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });
