/** A rain gauge and a weather model that do not agree are both told: the reader can look which is right. */
import type { SignalReport } from '../signals/types.ts';
import { quantity } from '../units/placeholder.ts';
import type { Messages } from '../words/index.ts';

export function rainCheckWords({ rainCheck }: SignalReport, m: Messages): string | undefined {
  if (rainCheck === undefined) return undefined;
  return m.rainCheck(quantity('rain', rainCheck.measuredMm), quantity('rain', rainCheck.modelMm));
}
