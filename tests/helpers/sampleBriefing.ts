import {
  composeBriefing,
  type AdviceFacts,
  type Briefing,
  type BriefingInput,
} from '../../src/briefing/index.ts';
import { pageOf, wordsFor, type AdviceInWords, type BriefingPage } from '../../src/words/index.ts';
import { saidAdvice } from './saidAdvice.ts';
import { SAMPLE_ISSUED_MS, sampleAdvice, sampleLake, sampleReport } from './sampleReport.ts';

const HOUR = 3_600_000;

/** What is told of the sample day: facts, or an advice in sentences, which are passed on as they are. */
export type SampleInput = Partial<Omit<BriefingInput, 'advice'>> & {
  readonly advice?: AdviceInWords | AdviceFacts;
};

const factsOf = (advice: AdviceInWords | AdviceFacts): AdviceFacts =>
  'closeWords' in advice ? saidAdvice(advice) : advice;

export function sampleInput({ advice, ...overrides }: SampleInput = {}): BriefingInput {
  return {
    lake: sampleLake(),
    report: sampleReport(),
    advice: factsOf(advice ?? sampleAdvice()),
    issuedMs: SAMPLE_ISSUED_MS,
    validUntilMs: SAMPLE_ISSUED_MS + 14.75 * HOUR,
    nextIssueMs: SAMPLE_ISSUED_MS + 24 * HOUR,
    status: 'scheduled',
    demo: true,
    ...overrides,
  };
}

export const sampleFacts = (overrides: SampleInput = {}): Briefing => composeBriefing(sampleInput(overrides));

/** The sample said in English. */
export const sampleBriefing = (overrides: SampleInput = {}): BriefingPage =>
  pageOf(sampleFacts(overrides), wordsFor('en'));
