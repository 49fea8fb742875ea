import { presentationWords } from '../words/en/presentation.ts';
import type { Presentation } from './presentation/index.ts';
import type { PresentationCard } from './types.ts';

/** Where a family has no such number. */
const NONE = { contactShare: 0, contactFromM: null, contactToM: null } as const;

function contactOf(of: Presentation): Pick<PresentationCard, 'contactShare' | 'contactFromM' | 'contactToM'> {
  const contact = of.family === 'diving' || of.family === 'bottom' ? of.contact : null;
  if (contact === null) return NONE;
  return { contactShare: contact.share, contactFromM: contact.fromM, contactToM: contact.toM };
}

/** A presentation as the page has it so far: every field for every family, and its sentences. */
export function cardOf(of: Presentation): PresentationCard {
  const laid =
    of.family === 'vertical'
      ? { castDepthM: of.boatDepthM, castLengthM: 0, castAngleDeg: 90 }
      : { castDepthM: of.castDepthM, castLengthM: of.castLengthM, castAngleDeg: of.castAngleDeg };
  const fallMs = of.family === 'sinking' ? (of.down?.fallMs ?? null) : 'fallMs' in of ? of.fallMs : null;
  const countS = of.family === 'sinking' ? (of.down?.countS ?? null) : 'countS' in of ? of.countS : null;
  const { because, reel, pauseWords, lineWords, steps, temperatureWords, misfit } = presentationWords(of);
  return {
    family: of.family,
    place: of.place,
    lureClass: of.lureClass,
    because,
    runningDepthM: of.family === 'surface' ? 0 : of.runningDepthM,
    retrieveMs: of.pace.speedMs,
    retrieveLowMs: of.pace.lowMs,
    retrieveHighMs: of.pace.highMs,
    turnsPerS: of.pace.speedMs / of.reel.takeM,
    reel,
    pauseS: of.pauseS,
    pauseWords,
    lineKg: of.tied.line.leaderKg ?? of.tied.line.kg,
    lineWords,
    boatDepthM: of.boatDepthM,
    ...laid,
    bankDeg: of.bankDeg,
    contactApplies: of.family === 'bottom' || (of.family === 'diving' && of.contact !== null),
    ...contactOf(of),
    steps,
    score: of.score,
    ...('ratedDepthM' in of ? { ratedDepthM: of.ratedDepthM } : {}),
    ...(fallMs === null ? {} : { fallMs }),
    ...(countS === null ? {} : { countS }),
    ...(temperatureWords === undefined ? {} : { temperatureWords }),
    ...(misfit === undefined ? {} : { misfit }),
  };
}
