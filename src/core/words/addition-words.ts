import type { SectionWords } from './section-words.ts';

export const additionWords: SectionWords = {
  title: 'Addition',
  lines: {
    shortest: () => 'The cooling cannot keep up with an addition shorter than this',
  },
  assumptions: {
    cooling: 'the cooling power of the laboratory’s list; heat freed evenly over the addition, none of it held back.',
  },
};
