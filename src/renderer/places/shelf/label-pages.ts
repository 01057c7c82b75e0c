/** Where the window goes; replaced by tests. */
export const pages = {
  open(address: string): void {
    globalThis.location.assign(address);
  },
};
