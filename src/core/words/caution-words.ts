/** Words around cautions: who has read them. */
export const cautionWords = {
  /** A button beside a caution. */
  acknowledge: 'Initial',
  acknowledgeFor: (caution: string) => `Write your initials: you have read “${caution}”`,
  initials: 'initials',
  read: (by: string, at: string) => `read by ${by}, ${at}`,
  readEarlier: (by: string, at: string) => `an earlier wording was read by ${by}, ${at}`,
  /** On a button while weighing. */
  readAs: (by: string) => `Read: ${by}`,
  readNext: 'Caution read',
  written: 'Written: read.',
  badInitials: 'Initials are needed: letters and digits, at most 20.',
  notWritten: (why: string) => `Not written. ${why}`.trim(),
  /** On paper, over the line beside a caution. */
  blank: 'read',
} as const;
