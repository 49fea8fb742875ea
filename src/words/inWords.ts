/**
 * The shape of an advice that has been said: every fact as a sentence, quantities as placeholders. Answers to a what-if
 * take this; what compares, plans, checks and archives takes the facts.
 */
import type {
  Advice,
  CastCard,
  Confidence,
  Evidence,
  HazardLevel,
  PhaseAdvice,
  PositionAdvice,
  SearchStep,
  SwapFact,
  Tendency,
  TendencyDay,
} from '../advice/index.ts';

/** What a step is about, in the order of the doing. */
export const STEP_KINDS = ['boat', 'tie', 'sink', 'work', 'contact', 'cover', 'layer'] as const;
export type StepKind = (typeof STEP_KINDS)[number];

/** The steps of a cast by what they are about; what the lure or its place does not ask for is left out. */
export type StepsByKind = Readonly<Partial<Record<StepKind, string>>>;

/** What is said of how one class is worked at one place. */
export interface PresentationWords {
  readonly because: string;
  readonly reel: string; // e.g. `6.4:1 reel, 0.66 m per turn`
  readonly pauseWords: string;
  readonly lineWords: string;
  readonly steps: readonly string[]; // verbs first, one line each
  /** Set when no water temperature is known: how the pace was chosen. */
  readonly temperatureWords?: string;
  /** Set when lure and bank cannot work together: what is wrong and what would. */
  readonly misfit?: string;
}

/** What is said of one hazard. */
export interface HazardWords {
  readonly label: string; // `COLD WATER`
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

export interface HazardInWords extends Omit<HazardWords, 'label'> {
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

/** How one class is worked at one place, in numbers and in sentences. */
export interface PresentationCard extends Omit<CastCard, 'told'>, PresentationWords {
  readonly lureClass: string;
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
  readonly presentations: readonly PresentationCard[];
  readonly safety: SafetyInWords;
  readonly tendency: TendencyInWords | null;
  readonly confidence: Said<Confidence>;
}
