import type { BoardProps, Desk } from './desk.svelte.ts';
import type { Way } from './walk.ts';

type Key = Pick<KeyboardEvent, 'key' | 'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey'>;

const ways: Readonly<Record<string, Way>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
};

/** Does what a key means on the board; false where it means nothing here and may go on to the page. */
export function boardKey(desk: Desk, { chosen, picture }: BoardProps, event: Key): boolean {
  if (event.altKey) return false;
  if (event.ctrlKey || event.metaKey) return !picture && event.key.toLowerCase() === 'a' && chooseAll(desk);
  if (!picture && desk.scan.key(event.key, event.shiftKey)) return true;
  return lookKey(desk, event) || (!picture && (editKey(desk, chosen, event) || walkKey(desk, event)));
}

function lookKey(desk: Desk, { key }: Key): boolean {
  if (key === '+' || key === '=') desk.paper.zoom(1.25);
  else if (key === '-') desk.paper.zoom(0.8);
  else if (key === '0') desk.paper.fit();
  else if (key === 'z' || key === 'Z') desk.zoomToChoice();
  else if (key === ' ') desk.spaceHeld = true;
  else return false;
  return true;
}

function walkKey(desk: Desk, { key, shiftKey }: Key): boolean {
  const way = ways[key];
  if (!way) return false;
  if (shiftKey) desk.nudge(way);
  else desk.walk(way);
  return true;
}

function editKey(desk: Desk, chosen: BoardProps['chosen'], { key }: Key): boolean {
  if (key === 'Delete' || key === 'Backspace') desk.drop();
  else if (key === 'a' || key === 'A') desk.use('land');
  else if (key === 'l' || key === 'L') desk.use('length');
  else if (key === 'd' || key === 'D') desk.repeat(2, '');
  else if (key === 'Enter') enter(desk, chosen);
  else if (key === 'Escape' && (desk.tool !== 'choose' || desk.firstEnd !== null || desk.pulled.length > 0)) {
    desk.use('choose');
    desk.leave();
  } else return false;
  return true;
}

function enter(desk: Desk, chosen: BoardProps['chosen']): void {
  if (desk.tool === 'land') desk.addLandHere();
  else if (desk.tool === 'length' && chosen?.kind === 'station') desk.pickEnd(chosen.id);
  else if (chosen && chosen.kind !== 'station') desk.edit(chosen);
  else desk.typing.next(null);
}

function chooseAll(desk: Desk): true {
  desk.choose(desk.drawing.part.segments.map(({ id }) => ({ kind: 'segment', id })));
  return true;
}
