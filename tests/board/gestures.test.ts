import { afterEach, beforeEach, expect, test } from 'vitest';
import { listen } from '../../src/board/gestures.ts';

let element: HTMLDivElement;
let heard: string[];
let stop: () => void;
beforeEach(() => {
  element = document.createElement('div');
  // Pointers that are made up cannot be captured.
  element.setPointerCapture = () => undefined;
  document.body.append(element);
  heard = [];
  const hear = (name: string) => () => void heard.push(name);
  stop = listen(element, {
    click: (_at, { finger, shift }) =>
      heard.push(`${shift ? 'Shift and ' : ''}click${finger ? ' by finger' : ''}`),
    double: hear('double'),
    rest: () => {
      heard.push('rest');
      return true;
    },
    hover: hear('hover'),
    pan: (dx, dy) => heard.push(`pan ${dx} ${dy}`),
    zoom: hear('zoom'),
    grab: (_at, { finger }) => !finger,
    drag: (_from, to) => heard.push(`drag to ${to.x}`),
    release: hear('release'),
    cancel: hear('cancel'),
    panning: () => false,
  });
});
afterEach(() => {
  stop();
  element.remove();
});

type Kind = 'pen' | 'touch' | 'mouse';
const ids: Readonly<Record<Kind, number>> = { mouse: 1, pen: 2, touch: 3 };
function point(
  type: 'down' | 'move' | 'up' | 'cancel',
  pointerType: Kind,
  x: number,
  pointerId = ids[pointerType],
): void {
  const { left, top } = element.getBoundingClientRect();
  const at = { clientX: left + x, clientY: top + 5 };
  element.dispatchEvent(
    new PointerEvent(`pointer${type}`, { ...at, pointerType, pointerId, button: 0, bubbles: true }),
  );
}

test('a hand that lies on the glass while a pen draws means nothing, whichever came first', () => {
  for (const first of [true, false]) {
    heard.length = 0;
    if (first) point('down', 'touch', 300);
    point('down', 'pen', 10);
    if (!first) point('down', 'touch', 300);
    point('move', 'touch', 320);
    point('move', 'pen', 40);
    point('up', 'touch', 320);
    point('move', 'pen', 60);
    point('up', 'pen', 60);
    expect(heard).toEqual(['drag to 40', 'drag to 60', 'release']);
  }
  heard.length = 0;
  point('down', 'touch', 10);
  point('up', 'touch', 10);
  expect(heard).toEqual(['click by finger']);
});

test('a pen that the screen lost gives the fingers back what they do', () => {
  point('down', 'pen', 10);
  point('cancel', 'pen', 10);
  point('down', 'touch', 100);
  point('move', 'touch', 130);
  point('up', 'touch', 130);
  expect(heard).toEqual(['pan 30 0']);
});

test('the paper keeps up with the finger, from where that went down', () => {
  point('down', 'touch', 100);
  for (const x of [104, 108, 115, 130]) point('move', 'touch', x);
  point('up', 'touch', 130);
  const moved = heard.map((said) => Number(said.split(' ')[1]));
  expect(moved.reduce((sum, dx) => sum + dx, 0)).toBe(30);
});

test('a finger rolls as it taps, a mouse does not', () => {
  point('down', 'touch', 100);
  point('move', 'touch', 107);
  point('up', 'touch', 107);
  point('down', 'mouse', 100);
  point('move', 'mouse', 107);
  point('up', 'mouse', 107);
  expect(heard).toEqual(['click by finger', 'drag to 107', 'release']);
});

test('two fingers zoom and pan, and lifting them is no click', () => {
  point('down', 'touch', 100, 11);
  point('down', 'touch', 200, 12);
  point('move', 'touch', 240, 12);
  point('up', 'touch', 240, 12);
  point('up', 'touch', 100, 11);
  expect(heard).toEqual(['pan 20 0', 'zoom']);
});
