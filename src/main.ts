import { mount } from 'svelte';
import './app.css';
import App from './App.svelte';
import { trustOnlyOurOwn } from './trusted.ts';

trustOnlyOurOwn();
const target = document.getElementById('app');
if (!target) throw new Error('index.html has no #app to mount on');
mount(App, { target });
