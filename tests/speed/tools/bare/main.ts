import { mount } from 'svelte';
import Bare from './Bare.svelte';

const target = document.getElementById('app');
if (!target) throw new Error('index.html has no #app to mount on');
mount(Bare, { target });
