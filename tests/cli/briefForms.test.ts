import { describe, expect, it } from 'vitest';
import { addBriefCommand } from '../../src/cli/brief.ts';
import { commandLine } from '../helpers/commandLine.ts';

const CONFIG = 'config/thawline.example.yaml';
const brief = (...words: string[]) => commandLine(addBriefCommand, '--config', CONFIG, 'brief', ...words);

describe('thawline brief --short', () => {
  it('refuses a form beside it, before anything is read or asked', async () => {
    expect(await brief('nowhere', '--short', '--format', 'html')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/leave --format html out/),
    });
  });

  it('is not refused alone', async () => {
    expect(await brief('nowhere', '--short')).toMatchObject({ err: expect.not.stringContaining('--format') });
  });
});
