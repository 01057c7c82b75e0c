/** The one place that asks the machine for the time. */
export interface Clock {
  /** This moment, ISO in UTC with milliseconds, e.g. "2027-02-25T09:42:07.120Z". */
  readonly now: () => string;
  /** Today's date where the person is, e.g. "2027-02-25". */
  readonly today: () => string;
}

export const machineClock: Clock = {
  now: () => new Date().toISOString(),
  today: () => {
    const date = new Date();
    return [date.getFullYear(), date.getMonth() + 1, date.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
  },
};
