import { join } from 'node:path';
import type { Page } from 'playwright';
import { kill, ready, start, title, type Session } from './session.ts';

export type Killed = {
  /** Edits that were said to be kept, and of those the ones that the next start did not find. */
  readonly acknowledged: number;
  readonly lost: number;
  /** Starts that found the part without its steps of undo. */
  readonly badSteps: number;
  /** Milliseconds from an edit to the word that it is on the disk, each as the page saw it. */
  readonly waits: readonly number[];
};

/** Milliseconds; a kill comes at any moment up to this. */
const LONGEST_SESSION = 2500;

/** What a session has been promised: `floor` is the lowest edit that the next start may find. */
type Promised = { typed: number; floor: number; readonly waits: number[] };

/** Presses a key; gives the milliseconds from it until the foot says that the title `wanted` is kept. */
async function keptAfter(page: Page, wanted: string, key: string): Promise<number> {
  const waiting = await page.evaluateHandle((text) => {
    let began = 0;
    addEventListener('keydown', () => (began ||= performance.now()), { capture: true });
    const told = new Promise<number>((resolve) => {
      const look = () => {
        const said = document.querySelector('footer [role=status]')?.textContent?.trim();
        const there = document.querySelector('h1')?.textContent === text;
        if (began > 0 && there && said === 'Kept in this browser') resolve(performance.now() - began);
        else setTimeout(look, 1);
      };
      look();
    });
    return { told };
  }, wanted);
  await page.keyboard.press(key);
  return waiting.evaluate(({ told }) => told);
}

/** Types numbered titles one after another, undoes and does again every fourth, until the browser dies. */
async function edit(page: Page, promised: Promised): Promise<void> {
  const field = page.getByRole('textbox', { name: 'Title' });
  const enter = async (n: number) => {
    await field.fill(`Edit ${n}`);
    promised.waits.push(await keptAfter(page, `Edit ${n}`, 'Enter'));
  };
  for (let n = promised.typed + 1; ; n += 1) {
    promised.typed = n;
    await enter(n);
    promised.floor = n;
    if (n % 4 !== 0) continue;
    await page.waitForTimeout(820); // closer ones are one typing, and undone as one
    await enter(n + 1);
    promised.typed = n += 1;
    promised.floor = n - 1;
    promised.waits.push(await keptAfter(page, `Edit ${n - 1}`, 'Control+z'));
    promised.waits.push(await keptAfter(page, `Edit ${n}`, 'Control+y'));
    promised.floor = n;
  }
}

/** The number of the edit that a fresh start finds, and whether it can still be undone. */
async function found(page: Page): Promise<{ n: number; undoes: boolean }> {
  const n = Number(/^Edit (\d+)$/.exec((await title(page).textContent()) ?? '')?.[1] ?? 0);
  const undoes = (await page.getByRole('button', { name: /^Undo: / }).count()) > 0;
  return { n, undoes };
}

/** Edits until a random moment of the session, and kills the browser then. */
async function editAndKill(session: Session, promised: Promised): Promise<void> {
  const editing = edit(session.page, promised).catch(() => undefined); // ended by the kill
  await new Promise((resolve) => setTimeout(resolve, Math.random() * LONGEST_SESSION));
  await kill(session);
  await editing;
}

/**
 * Kills the browser (SIGKILL, all its processes at once) at random moments of an editing session, over and over: the
 * start that looks what the kill left is the session that is killed next.
 */
export async function killOverAndOver(folder: string, address: string, kills: number): Promise<Killed> {
  const profile = join(folder, 'killed');
  const waits: number[] = [];
  let promised: Promised = { typed: 0, floor: 0, waits };
  let [lost, badSteps] = [0, 0];
  for (let round = 0; round <= kills; round += 1) {
    const session = await start(profile);
    await session.page.goto(address);
    await ready(session.page);
    const { n, undoes } = await found(session.page);
    if (n < promised.floor) lost += promised.floor - n;
    if (n > 0 && !undoes) badSteps += 1;
    if (round > 0 && round % 10 === 0)
      console.log(`${round} kills, ${waits.length} edits acknowledged, ${lost} lost`);
    promised = { typed: Math.max(promised.typed, n), floor: n, waits };
    if (round < kills) await editAndKill(session, promised);
    else await kill(session);
  }
  return { acknowledged: waits.length, lost, badSteps, waits };
}
