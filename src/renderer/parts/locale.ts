import type { DecimalMark } from '../../core/quantity/format.ts';

/** The desktop's decimal mark. */
export const decimalMark: DecimalMark = (1.5).toLocaleString().includes(',') ? ',' : '.';
