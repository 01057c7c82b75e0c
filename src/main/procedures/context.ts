import type { ProcedureInput, ProcedureName, ProcedureOutput, Topic } from '../../core/port/port.ts';
import type { ReferenceRows } from '../../core/reference-rows.ts';
import type { Clock } from '../clock.ts';
import type { Keeper } from '../store/keeper.ts';

/** What the host in front of the program can do that the program itself cannot. */
export interface HostAbilities {
  readonly kind: 'electron' | 'browser';
  /** Prints an issued paper's page to a PDF. */
  readonly pdf: (paper: number) => Promise<Uint8Array>;
  /** Shows the print dialog for an issued paper; `name` is what a file of it would be called. */
  readonly print: (paper: number, name: string) => Promise<'dialog' | 'opened'>;
}

/** Everything a procedure may use. */
export interface Context {
  readonly keeper: Keeper;
  readonly clock: Clock;
  readonly host: HostAbilities;
  readonly reference: () => ReferenceRows;
  readonly version: string;
  readonly dataFolder: string;
  readonly tell: (topic: Topic) => void;
  /** Where an error nobody foresaw is written for whoever looks after the program; never shown in the window. */
  readonly report: (error: unknown) => void;
}

/** One procedure: answers, or throws a Refusal. Its input has been checked against the port's schema. */
export type Procedure<N extends ProcedureName> = (
  context: Context,
  input: ProcedureInput<N>,
) => ProcedureOutput<N> | Promise<ProcedureOutput<N>>;

export type Procedures<N extends ProcedureName = ProcedureName> = { readonly [K in N]: Procedure<K> };
