import { mount } from 'svelte';
import './app.css';
import App from './App.svelte';
import { drawingFont } from './board/drawing-font.ts';
import { firstReport } from './core/first-report.ts';
import { Keeper } from './keep/autosave.ts';
import { pageStorage, Settings } from './keep/settings.svelte.ts';
import { rooms } from './panels/rooms.ts';
import { Shop } from './panels/shop.svelte.ts';
import { trustOnlyOurOwn } from './trusted.ts';

/** What is to be drawn is waited for no longer than so many ms; then the page says that it is still looking for it. */
const PATIENCE = 300;

trustOnlyOurOwn();
const target = document.getElementById('app');
if (!target) throw new Error('index.html has no #app to mount on');

const keeper = new Keeper((state) => (shop.kept = state));
const shop: Shop = new Shop(new Settings(pageStorage()), keeper, (part) =>
  (rooms.report.here?.draftReport ?? firstReport)(part),
);
let begun = Promise.resolve();
const laid = new Promise<void>((resolve) => (begun = shop.begin(resolve)));
const late = new Promise((resolve) => setTimeout(resolve, PATIENCE));
// The page comes with its drawing, in one frame: each frame before that would only put it off.
void Promise.race([Promise.allSettled([laid, drawingFont]), late]).then(() =>
  mount(App, { target, props: { shop, begun } }),
);
