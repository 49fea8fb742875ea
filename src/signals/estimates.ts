/** The water of a lake at one instant, as a reading is compared with it. */
import type { LakeConfig } from '../config/index.ts';
import type { RecordView } from '../record/index.ts';
import { localDateAt } from '../units/time/index.ts';
import type { Refusal } from '../water/index.ts';
import { waterModels } from './models.ts';

export interface PocketEstimate {
  readonly id: string;
  /** Surface temperature at the end of the hour of the view's instant, degC, with its 80 % interval. */
  readonly surfaceC: number;
  readonly lowC: number;
  readonly highC: number;
}

export interface WaterEstimates {
  /** Main lake, daily mean of the view's local day at about 1 m, degC; as measured without weather, null without either. */
  readonly mainC: number | null;
  /** Pockets with an estimate; none without fresh weather. */
  readonly pockets: readonly PocketEstimate[];
  /** Readings that are not believed, or in a pocket cannot be compared. */
  readonly refused: readonly {
    readonly id: string;
    readonly reason: Refusal;
    readonly kind: 'improbable' | 'incomparable';
  }[];
}

/** Estimates of the main lake and each pocket at the instant of a view. */
export function estimateWaters(view: RecordView, lake: LakeConfig): WaterEstimates {
  const { water, pockets } = waterModels(view, lake);
  return {
    mainC: water.byDate.get(localDateAt(view.asOfMs, lake.zone))?.waterC ?? water.measured?.waterC ?? null,
    pockets: pockets.flatMap(({ id, run }) => {
      const now = run.hours.find(({ atMs }) => atMs >= view.asOfMs);
      return now ? [{ id, surfaceC: now.surfaceC, lowC: now.lowC, highC: now.highC }] : [];
    }),
    refused: [
      ...water.taken.flatMap(({ id, refusal }) =>
        refusal === null ? [] : [{ id, reason: refusal, kind: 'incomparable' as const }],
      ),
      ...pockets.flatMap(({ refused }) =>
        refused.map(({ reading, reason, kind }) => ({ id: reading.id, reason, kind })),
      ),
    ],
  };
}
