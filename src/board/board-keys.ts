import type { BoardProps } from './board-props.ts';
import type { Desk } from './desk.svelte.ts';
import type { Way } from './walk.ts';

type Key = Pick<KeyboardEvent, 'key' | 'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey'>;
/** Keys that mean the same on the board; letters stand for both cases. */
type Bound = {
  readonly keys: readonly string[];
  /** As the card of keys writes them. */
  readonly shown: string;
  readonly says: string;
  /** Whether it means something just now; left out where it always does. */
  readonly when?: (desk: Desk) => boolean;
  readonly does: (desk: Desk, chosen: BoardProps['chosen']) => void;
};

/** Keys that look around, also while a picture of the bar is shown. */
const looks: readonly Bound[] = [
  { keys: ['+', '='], shown: '+', says: 'zoom in', does: ({ paper }) => paper.zoom(1.25) },
  { keys: ['-'], shown: '−', says: 'zoom out', does: ({ paper }) => paper.zoom(0.8) },
  { keys: ['0'], shown: '0', says: 'show the whole part', does: ({ paper }) => paper.fit() },
  { keys: ['z'], shown: 'Z', says: 'show what is chosen', does: (desk) => desk.zoomToChoice() },
  { keys: [' '], shown: 'Space and drag', says: 'move the paper', does: (desk) => (desk.spaceHeld = true) },
];

const edits: readonly Bound[] = [
  { keys: ['a'], shown: 'A', says: 'add a land', does: (desk) => desk.use('land') },
  { keys: ['l'], shown: 'L', says: 'add a length', does: (desk) => desk.use('length') },
  { keys: ['d'], shown: 'D', says: 'duplicate what is chosen', does: (desk) => desk.work.repeat(2, '') },
  {
    keys: ['enter'],
    shown: 'Enter',
    says: 'type the size of what is chosen, or the next that is missing; add the land, pick the end of a length',
    does: enter,
  },
  {
    keys: ['delete', 'backspace'],
    shown: 'Delete',
    says: 'delete what is chosen',
    does: (desk) => desk.work.drop(),
  },
  {
    keys: ['escape'],
    shown: 'Esc',
    says: 'let go of a tool, then of what is chosen',
    when: ({ tool, firstEnd, pulled }) => tool !== 'choose' || firstEnd !== null || pulled.length > 0,
    does: (desk) => {
      desk.use('choose');
      desk.leave();
    },
  },
];

const ways: Readonly<Record<string, Way>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
};

/** Everything that keys, alone or with the pointer, mean on the board, as the card of keys writes it. */
export const boardKeyWords: readonly (readonly [shown: string, says: string])[] = [
  ['← →', 'choose the next face or segment; while a picture is placed, the arrows move the cross'],
  ['↓ ↑', 'choose a length; a hole, a crossing or an edge'],
  ['Shift+← →', 'nudge a face that nothing holds'],
  ['Shift+↑ ↓', 'put a length in another lane'],
  ...edits.map(({ shown, says }): [string, string] => [shown, says]),
  ['Ctrl+A', 'choose every segment'],
  ['Ctrl+C, X, V', 'copy or cut the chosen segments; put them in, also in another part'],
  ['Shift and click', 'choose one more, or one less; a drag over the paper chooses what it frames'],
  ['Alt while dragging', 'go free: nothing falls onto the rule or other faces'],
  ['wheel, pinch', 'zoom about the pointer'],
  ...looks.map(({ shown, says }): [string, string] => [shown, says]),
];

/** Does what a key means on the board; false where it means nothing here and may go on to the page. */
export function boardKey(desk: Desk, { chosen, picture }: BoardProps, event: Key): boolean {
  if (event.altKey) return false;
  if (event.ctrlKey || event.metaKey) return !picture && event.key.toLowerCase() === 'a' && chooseAll(desk);
  if (!picture && desk.scan.key(event.key, event.shiftKey)) return true;
  const pressed = event.key.toLowerCase();
  const bound = (picture ? looks : [...looks, ...edits]).find(
    ({ keys, when }) => keys.includes(pressed) && (when?.(desk) ?? true),
  );
  bound?.does(desk, chosen);
  return bound !== undefined || (!picture && walkKey(desk, event));
}

/** The page deletes the one chosen thing that it knows of; only the board knows of several, wherever the keys are. */
export function dropMany(desk: Desk, { picture }: BoardProps, event: KeyboardEvent): void {
  const typing =
    event.target instanceof HTMLElement && event.target.closest('input, textarea, select') !== null;
  if (event.key !== 'Delete' || event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.defaultPrevented || typing || picture || desk.chosen.also.length === 0) return;
  event.preventDefault();
  desk.work.drop();
}

function walkKey(desk: Desk, { key, shiftKey }: Key): boolean {
  const way = ways[key];
  if (!way) return false;
  if (shiftKey) desk.work.nudge(way);
  else desk.walk(way);
  return true;
}

function enter(desk: Desk, chosen: BoardProps['chosen']): void {
  if (desk.tool === 'land') desk.work.addLandHere();
  else if (desk.tool === 'length' && chosen?.kind === 'station') desk.pickEnd(chosen.id);
  else if (chosen && chosen.kind !== 'station') desk.edit(chosen);
  else desk.typing.next(null);
}

function chooseAll(desk: Desk): true {
  desk.chosen.choose(desk.drawing.part.segments.map(({ id }) => ({ kind: 'segment', id })));
  return true;
}
