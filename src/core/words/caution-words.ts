import type { Ended } from '../caution/acknowledgement.ts';

/** What a person read, where it is no longer what stands here. */
const EARLIER: Readonly<Record<Ended, string>> = {
  wording: 'an earlier wording',
  scale: 'this, for a batch of less than half the size,',
  charges: 'this, with other charges or strengths,',
  'not known': 'this, at a scale that was not recorded,',
};

/** Words around cautions: who has read them. */
export const cautionWords = {
  /** A button beside a caution. */
  acknowledge: 'Initial',
  acknowledgeFor: (caution: string) => `Write your initials: you have read “${caution}”`,
  initials: 'initials',
  read: (by: string, at: string) => `read by ${by}, ${at}`,
  readEarlier: (by: string, at: string, ended: Ended) => `${EARLIER[ended]} was read by ${by}, ${at}: read it again`,
  /** On a button while weighing. */
  readAs: (by: string) => `Read: ${by}`,
  readNext: 'Caution read',
  written: 'Written: read.',
  badInitials: 'Initials are needed: letters and digits, at most 20.',
  notWritten: (why: string) => `Not written. ${why}`.trim(),
  /** On paper, over the line beside a caution. */
  blank: 'read',
} as const;
