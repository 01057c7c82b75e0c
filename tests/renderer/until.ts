import { vi } from 'vitest';

/** Only a hang takes so long. */
export const PATIENT_MILLISECONDS = 20_000;

/** Waits until an expectation holds, however busy the machine is. */
export const until = (held: () => void): Promise<void> => vi.waitFor(held, { timeout: PATIENT_MILLISECONDS });
