import { composeBriefing, type Briefing, type BriefingInput } from '../../src/briefing/index.ts';
import { pageOf, wordsFor, type BriefingPage } from '../../src/words/index.ts';
import { SAMPLE_ISSUED_MS, sampleAdvice, sampleLake, sampleReport } from './sampleReport.ts';

const HOUR = 3_600_000;

export function sampleInput(overrides: Partial<BriefingInput> = {}): BriefingInput {
  return {
    lake: sampleLake(),
    report: sampleReport(),
    advice: sampleAdvice(),
    issuedMs: SAMPLE_ISSUED_MS,
    validUntilMs: SAMPLE_ISSUED_MS + 14.75 * HOUR,
    nextIssueMs: SAMPLE_ISSUED_MS + 24 * HOUR,
    status: 'scheduled',
    demo: true,
    ...overrides,
  };
}

export const sampleFacts = (overrides: Partial<BriefingInput> = {}): Briefing =>
  composeBriefing(sampleInput(overrides));

/** The sample said in English. */
export const sampleBriefing = (overrides: Partial<BriefingInput> = {}): BriefingPage =>
  pageOf(sampleFacts(overrides), wordsFor('en'));
