/** What the signals of one instant are read from, computed once for today and the days ahead. */
import type { LakeConfig } from '../config/types.ts';
import type { RecordView } from '../record/types.ts';
import type { LevelResult } from './levels.ts';
import type { WaterModels } from './models.ts';

export interface Tables extends WaterModels {
  readonly view: RecordView;
  readonly lake: LakeConfig;
  readonly level: LevelResult;
}
