/**
 * The shape of an advice after `words` has said it: every fact as a sentence, quantities as placeholders. What lays
 * out pages and answers takes this; what compares, plans and checks takes the facts.
 */
import type {
  Advice,
  Confidence,
  Evidence,
  HazardLevel,
  PhaseAdvice,
  PositionAdvice,
  SearchStep,
  SwapFact,
  Tendency,
  TendencyDay,
} from './types.ts';

/** What is said of one hazard. */
export interface HazardWords {
  readonly headline: string; // `COLD WATER: ...`
  readonly what: string;
  readonly where: string;
  readonly when: string;
  readonly doThis: string;
}

export interface EvidenceInWords extends Evidence {
  readonly sentence: string;
}

export interface PositionInWords extends Omit<
  PositionAdvice,
  'because' | 'limitedBy' | 'periodBecause' | 'evidence'
> {
  readonly name: string; // words for people
  readonly because: readonly string[]; // strongest two
  readonly limitedBy: string;
  readonly periodBecause: string;
  readonly evidence: readonly EvidenceInWords[];
}

export interface HazardInWords extends HazardWords {
  readonly id: string;
  readonly level: HazardLevel;
  readonly source: string;
  /** Official statements only: verbatim text, issuer, end. */
  readonly official?: {
    readonly issuer: string;
    readonly text: string;
    readonly endsMs: number | null;
    readonly cut?: boolean;
    readonly url?: string;
  };
}

export interface SafetyInWords {
  readonly level: HazardLevel;
  readonly levelWords: string;
  readonly hazards: readonly HazardInWords[]; // highest first
  readonly notChecked: readonly string[];
  readonly deferTo: string;
}

type Said<T extends { readonly because: unknown }> = Omit<T, 'because'> & { readonly because: string };

export interface TendencyInWords {
  readonly word: Tendency['word'];
  readonly because: string;
  /** What would change it. */
  readonly trigger: string;
  readonly days: readonly Omit<Said<TendencyDay>, 'level' | 'hazard' | 'turns'>[];
  readonly bestDay?: { readonly date: string; readonly because: string };
}

/** The advice with every fact as a sentence, quantities as placeholders: what pages and answers are made from. */
export interface AdviceInWords extends Omit<
  Advice,
  'phase' | 'positions' | 'lead' | 'swap' | 'searchPlan' | 'safety' | 'tendency' | 'confidence'
> {
  readonly phase: Said<PhaseAdvice>;
  readonly positions: readonly PositionInWords[];
  readonly closeWords: string;
  readonly swap: (Pick<SwapFact, 'signal' | 'from' | 'to'> & { readonly sentence: string }) | null;
  readonly searchPlan: readonly (SearchStep & { readonly step: string; readonly moveOn: string })[];
  readonly safety: SafetyInWords;
  readonly tendency: TendencyInWords | null;
  readonly confidence: Said<Confidence>;
}
