import { writePart } from '../core/part/write-part.ts';
import { keepToTheEnd } from '../keep/leaving.ts';
import { keepOffline } from '../keep/offline.ts';
import { Planner } from '../keep/planner.ts';
import { watchFaults } from './library/bug-report.ts';
import { fetchRooms, rooms } from './rooms.ts';
import type { Shop } from './shop.svelte.ts';

const DARK = '(prefers-color-scheme: dark)';

/** What is still being typed counts as typed: it is taken before anything is saved, printed or replaced. */
export function finishTyping(): void {
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
}

/** A page that is not seen draws no board: then it is not waited for longer than so many ms. */
const UNSEEN = 500;

/**
 * What goes on for as long as the page is open: keeping the work, planning it beside, the clock, the theme, the title,
 * the watch for faults. Made while the page's component begins, as its effects end with that.
 */
export class PageLife {
  readonly #shop: Shop;
  readonly #planner: Planner;
  /** Milliseconds, as far as a line that says "a minute ago" needs them. */
  now = $state(Date.now());
  #systemIsDark = $state(matchMedia(DARK).matches);
  dark = $derived.by(() => {
    const { theme } = this.#shop.settings;
    return theme === null ? this.#systemIsDark : theme === 'dark';
  });

  constructor(shop: Shop) {
    this.#shop = shop;
    this.#planner = new Planner({
      planned: (planned) => (shop.plan.planned = planned),
      advised: (advised) => (shop.plan.advised = advised),
      fault: (say) => shop.plan.failed(say),
    });
    $effect(() => {
      document.documentElement.dataset['theme'] = this.dark ? 'dark' : 'light';
    });
    $effect(() => {
      document.title = `${shop.document.part.title || 'Untitled shaft'} · Shaftwright`;
    });
    $effect(() => {
      if (shop.ready) shop.keeper.keep(shop.work());
    });
    $effect(() => {
      if (shop.settled) this.#planner.plan(shop.plan.drawing, shop.lathe);
    });
    $effect(() => {
      if (shop.ready && shop.file.step.kind !== 'none' && shop.kept.kind !== 'following') followInStep(shop);
    });
    $effect(() => {
      if (shop.settled && !shop.plan.pending) void fetchRooms();
    });
    $effect(() => {
      if (shop.settled) void rooms.report.fetch().catch(() => undefined); // till then the drawing stands without it
    });
    $effect(() => {
      if (!shop.ready || shop.settled) return;
      const late = setTimeout(() => (shop.settled = true), UNSEEN);
      return () => clearTimeout(late);
    });
    $effect(() => this.#live());
  }

  #live(): () => void {
    const { keeper, shelf } = this.#shop;
    const systemDark = matchMedia(DARK);
    const follow = () => (this.#systemIsDark = systemDark.matches);
    const clock = setInterval(() => (this.now = Date.now()), 30_000);
    systemDark.addEventListener('change', follow);
    const look = () => {
      if (this.#shop.kept.kind !== 'following') this.#shop.file.inStep.look();
    };
    addEventListener('focus', look);
    const stopKeeping = keepToTheEnd(() => this.#settle());
    const stopWatching = watchFaults(
      () => this.#shop.document.part,
      (say, offer) => this.#shop.say(say, true, offer),
    );
    if (import.meta.env.PROD && 'serviceWorker' in navigator) {
      // Over plain http there is none: the app works all the same, only not with the network off.
      keepOffline(`${import.meta.env.BASE_URL}sw.js`, (take) => this.#shop.offerNewer(take)).catch(
        () => undefined,
      );
    }
    return () => {
      clearInterval(clock);
      systemDark.removeEventListener('change', follow);
      removeEventListener('focus', look);
      stopKeeping();
      stopWatching();
      shelf.close();
      this.#planner.close();
      keeper.close();
    };
  }

  /** Hands over what is pending; true while any of it is not on the disk. */
  #settle(): boolean {
    const { keeper } = this.#shop;
    finishTyping();
    if (this.#shop.ready) keeper.keep(this.#shop.work());
    void this.#shop.file.inStep.flush();
    return keeper.pending || this.#shop.kept.kind === 'failed';
  }
}

/** What goes into the file that is kept in step: the part as it is, with the picture that is traced in it. */
function followInStep({ document, pictures, file: { inStep } }: Shop): void {
  const { part } = document;
  if (!part.scan) return inStep.follow(writePart(part));
  void pictures.given(part).then(({ part: whole }) => {
    if (document.part === part) inStep.follow(writePart(whole));
  });
}
