import { signal } from '@preact/signals';
import type { ChosenBatch } from '../../../core/paper/context.ts';
import type { Paper } from '../../../core/paper/paper.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import type { PaperEntry } from '../../../core/port/workbook.ts';
import { benchWords } from '../../../core/words/bench-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { PREVIEW } from '../../paper/open-paper.ts';
import { call } from '../../state/connection.ts';
import { inOrder } from '../../state/in-order.ts';
import { secondCheck } from '../../state/paper-context.ts';
import { openPlanById, savedPlan } from '../../state/plan-store.ts';
import { openPlan } from '../../state/plan-route.ts';

const words = benchWords.papers;

/** Chosen batches by "step/batch"; a choice the plan no longer has is simply not done. */
export const chosen = signal<ReadonlySet<string>>(new Set());
/** What the last act on papers came to. */
export const paperSaid = signal('');
export const issuedPapers = signal<readonly PaperEntry[] | null>(null);
export const papersTrouble = signal('');

export const batchKey = (step: string, batch: number): string => `${step}/${batch}`;

/** Every batch the plan asks for, in working order. */
export function everyBatch(result: PlanResult): readonly ChosenBatch[] {
  return result.steps
    .filter((step) => step.active)
    .flatMap((step) => Array.from({ length: step.batches.count }, (_, at) => ({ step: step.id, batch: at + 1 })));
}

/** Those of them that are chosen. */
export function chosenBatches(result: PlanResult): readonly ChosenBatch[] {
  return everyBatch(result).filter(({ step, batch }) => chosen.value.has(batchKey(step, batch)));
}

/** Where the window goes; replaced by tests. */
export const pages = {
  open(address: string): void {
    globalThis.location.assign(address);
  },
};

/** Shows a paper as it would be printed, without keeping it: the paper's own page reads it from this tab. */
export function previewPaper(paper: Paper): void {
  sessionStorage.setItem(PREVIEW, JSON.stringify(paper));
  remember();
  pages.open('./paper.html#paper=preview');
}

export function openIssued(id: number): void {
  remember();
  pages.open(`./paper.html#paper=${id}`);
}

/** A paper is on its way; a second press would keep it twice. */
let issuing = false;

/** Saves the plan, gives it a revision, keeps the paper for ever and opens it. */
export async function issuePaper(paper: Paper): Promise<void> {
  if (issuing) return;
  issuing = true;
  await issue(paper);
  issuing = false;
}

async function issue(paper: Paper): Promise<void> {
  paperSaid.value = words.issuing;
  const plan = await savedPlan();
  if (!plan) {
    paperSaid.value = words.unsaved;
    return;
  }
  const answer = await call('papers.issue', { planId: plan.id, state: plan.state, kind: paper.kind, title: paper.title, paper });
  if (!answer.ok) {
    paperSaid.value = words.failed(troubleWords(answer));
    return;
  }
  paperSaid.value = '';
  void readPapers();
  openIssued(answer.value.id);
}

const inTurn = inOrder();

export async function readPapers(): Promise<void> {
  const plan = openPlan.value;
  if (!plan) return;
  const answer = await inTurn(call('papers.list', { planId: plan.id }));
  if (!answer || openPlan.value?.id !== plan.id) return;
  papersTrouble.value = answer.ok ? '' : words.unread(troubleWords(answer));
  if (answer.ok) issuedPapers.value = answer.value;
}

/** A paper's page is a page of its own: what is chosen here is kept in this tab, so that coming back finds it. */
const KEPT = 'backweigh bench';

/** The window is on its way to a paper; what is kept must not be taken back before it has gone. */
let leaving = false;

function remember(): void {
  leaving = true;
  const kept = { plan: openPlan.value?.id ?? 0, chosen: [...chosen.value], secondCheck: secondCheck.value };
  sessionStorage.setItem(KEPT, JSON.stringify(kept));
}

/** Back from a paper's page: the same plan, the same batches. Once for each time this page is opened. */
export function recall(): void {
  const text = sessionStorage.getItem(KEPT);
  if (leaving || text === null || !openPlan.value) return;
  sessionStorage.removeItem(KEPT);
  const kept: unknown = JSON.parse(text);
  if (!isKept(kept)) return;
  chosen.value = new Set(kept.chosen);
  secondCheck.value = kept.secondCheck;
  if (kept.plan > 0 && kept.plan !== openPlan.value.id) void openPlanById(kept.plan);
}

/** Chooses one batch and nothing else, whatever was kept for coming back. */
export function chooseOnly(step: string, batch: number): void {
  sessionStorage.removeItem(KEPT);
  chosen.value = new Set([batchKey(step, batch)]);
}

interface Kept {
  readonly plan: number;
  readonly chosen: readonly string[];
  readonly secondCheck: boolean;
}

function isKept(value: unknown): value is Kept {
  if (value === null || typeof value !== 'object') return false;
  if (!('plan' in value && 'chosen' in value && 'secondCheck' in value)) return false;
  return typeof value.plan === 'number' && Array.isArray(value.chosen) && typeof value.secondCheck === 'boolean';
}
