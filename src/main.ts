import { mount } from 'svelte';
import './app.css';
import App from './App.svelte';

const target = document.getElementById('app');
if (!target) throw new Error('index.html has no #app to mount on');
mount(App, { target });

if (import.meta.env.PROD && 'serviceWorker' in navigator) {
  // Over plain http there is no service worker: the app works, only not with the network off.
  navigator.serviceWorker.register(`${import.meta.env.BASE_URL}sw.js`).catch(() => undefined);
}
