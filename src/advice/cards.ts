import type { Presentation, Presented } from './presentation/index.ts';
import type { CastCard } from './types.ts';

/** Where a family has no such number. */
const NONE = { contactShare: 0, contactFromM: null, contactToM: null } as const;

function contactOf(of: Presentation): Pick<CastCard, 'contactShare' | 'contactFromM' | 'contactToM'> {
  const contact = of.family === 'diving' || of.family === 'bottom' ? of.contact : null;
  if (contact === null) return NONE;
  return { contactShare: contact.share, contactFromM: contact.fromM, contactToM: contact.toM };
}

/** A presentation in numbers: every field for every family, as pages draw it and the gate checks it. */
export function cardOf({ path, ...of }: Presented): CastCard {
  const laid =
    of.family === 'vertical'
      ? { castDepthM: of.boatDepthM, castLengthM: 0, castAngleDeg: 90 }
      : { castDepthM: of.castDepthM, castLengthM: of.castLengthM, castAngleDeg: of.castAngleDeg };
  const fallMs = of.family === 'sinking' ? (of.down?.fallMs ?? null) : 'fallMs' in of ? of.fallMs : null;
  const countS = of.family === 'sinking' ? (of.down?.countS ?? null) : 'countS' in of ? of.countS : null;
  return {
    told: of,
    family: of.family,
    place: of.place,
    runningDepthM: of.family === 'surface' ? 0 : of.runningDepthM,
    retrieveMs: of.pace.speedMs,
    retrieveLowMs: of.pace.lowMs,
    retrieveHighMs: of.pace.highMs,
    turnsPerS: of.pace.speedMs / of.reel.takeM,
    pauseS: of.pauseS,
    lineKg: of.tied.line.leaderKg ?? of.tied.line.kg,
    boatDepthM: of.boatDepthM,
    ...laid,
    bankDeg: of.bankDeg,
    contactApplies: of.family === 'bottom' || (of.family === 'diving' && of.contact !== null),
    ...contactOf(of),
    path,
    score: of.score,
    ...('ratedDepthM' in of ? { ratedDepthM: of.ratedDepthM } : {}),
    ...(fallMs === null ? {} : { fallMs }),
    ...(countS === null ? {} : { countS }),
  };
}
