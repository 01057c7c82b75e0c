import { contextBridge, ipcRenderer } from 'electron';
import type { Port } from '../../core/port/port.ts';

/** The only thing the window can reach: two named functions, never the bridge itself nor an event. */
const port: Port = {
  call: (name, input) => ipcRenderer.invoke('call', name, input),
  subscribe: (topic, changed) => {
    const listener = (_event: unknown, told: unknown): void => {
      if (told === topic) changed();
    };
    ipcRenderer.on('changed', listener);
    return () => {
      ipcRenderer.off('changed', listener);
    };
  },
};

contextBridge.exposeInMainWorld('backweigh', port);
