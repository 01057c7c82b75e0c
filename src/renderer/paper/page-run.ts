import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import { runName } from './page-rules.ts';

/** How many page runs stand before this paper where several are printed in one go. */
export const RunsBefore = createContext(0);

/** The name of a run of pages of this paper, counted from 0. */
export function useRunName(): (at: number) => string {
  const before = useContext(RunsBefore);
  return (at) => runName(before + at);
}
