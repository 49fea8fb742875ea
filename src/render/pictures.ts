import type { BriefingDocument, Messages } from '../briefing/index.ts';
import type { UnitSystem } from '../units/index.ts';
import type { Picture } from './html.ts';

export function drawPictures(_doc: BriefingDocument, _units: UnitSystem, _m: Messages): Picture[] {
  return [];
}
