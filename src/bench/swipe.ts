/** CSS px a finger travels before it counts as turning the page. */
const FAR = 60;

/**
 * Turns pages by a finger drawn across: to the left for the next, to the right for the one before. A finger that goes
 * more down than across scrolls.
 */
export function swipe(turn: (by: 1 | -1) => void): (element: HTMLElement) => () => void {
  return (element) => {
    let from: { x: number; y: number } | null = null;
    const start = ({ touches }: TouchEvent) => {
      const [touch] = touches;
      from = touch && touches.length === 1 ? { x: touch.clientX, y: touch.clientY } : null;
    };
    const end = ({ changedTouches: [touch] }: TouchEvent) => {
      if (!from || !touch) return;
      const across = touch.clientX - from.x;
      const down = touch.clientY - from.y;
      from = null;
      if (Math.abs(across) >= FAR && Math.abs(across) > 2 * Math.abs(down)) turn(across < 0 ? 1 : -1);
    };
    const cancel = () => (from = null);
    element.addEventListener('touchstart', start, { passive: true });
    element.addEventListener('touchend', end);
    element.addEventListener('touchcancel', cancel);
    return () => {
      element.removeEventListener('touchstart', start);
      element.removeEventListener('touchend', end);
      element.removeEventListener('touchcancel', cancel);
    };
  };
}
