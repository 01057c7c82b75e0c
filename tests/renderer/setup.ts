import { configure } from '@testing-library/preact';
import { vi } from 'vitest';
import { quickLabels } from './quick-labels.ts';
import { PATIENT_MILLISECONDS } from './until.ts';

// One window serves all files of a worker (making one was half of what a small file took): each begins with an empty page and
// with the program's modules, and so its state, as they are at the start.
document.body.replaceChildren();
sessionStorage.clear();
localStorage.clear();
window.location.hash = '';
vi.resetModules();

// What is waited for is waited for on a busy machine, too: structures and chances take a second on a good day.
configure({ asyncUtilTimeout: PATIENT_MILLISECONDS });
quickLabels();
