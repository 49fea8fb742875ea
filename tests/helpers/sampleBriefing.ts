import { composeBriefing, type BriefingDocument, type BriefingInput } from '../../src/briefing/index.ts';
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

export const sampleBriefing = (overrides: Partial<BriefingInput> = {}): BriefingDocument =>
  composeBriefing(sampleInput(overrides));
