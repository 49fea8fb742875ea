/** The command line from outside: what is loaded for a command, what help and mistakes still know. */
import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { PROGRAM } from '../builtProgram.ts';

function thawline(...words: string[]): { code: number | null; said: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [...PROGRAM, ...words], {
    encoding: 'utf8',
  });
  return { code: status, said: stdout + stderr };
}

const ALL = [
  'demo',
  'init',
  'brief',
  'send',
  'run',
  'work',
  'reload',
  'tune-link',
  'status',
  'jobs',
  'readers',
  'web',
  'preview',
  'what-if',
  'reading',
  'release',
  'outing',
  'notice',
  'mail',
  'record',
  'replay',
  'compare',
  'learn',
  'hindcast',
  'check',
  'completion',
  'man',
];
const listed = (help: string): string[] =>
  [...help.matchAll(/^ {2}([a-z][a-z-]*) /gm)].map(([, name]) => name!);

describe('thawline', () => {
  it('lists every command in its help', () => {
    const { code, said } = thawline('--help');
    expect(code).toBe(0);
    expect(listed(said)).toEqual([...ALL, 'help']);
  });

  it('knows all of them when a word is mistaken', () => {
    const { code, said } = thawline('hindcats');
    expect(code).toBe(2);
    expect(said).toMatch(/unknown command 'hindcats'/);
    expect(said).toMatch(/Did you mean hindcast\?/);
  });

  it('finds the command behind the configuration, even of a file named as another command', () => {
    const { code, said } = thawline('--config', 'brief', 'hindcast', '--help');
    expect(code).toBe(0);
    expect(said).toMatch(/Usage: thawline hindcast/);
    expect(said.replace(/\s+/g, ' ')).toMatch(/Up to 10 days on end without air_c.*the model starts anew/);
    expect(thawline('help', 'what-if').said).toMatch(/Usage: thawline what-if/);
  });

  it('loads the database for a command that needs it, and not for hindcast', () => {
    const loadsIt = (...words: string[]): boolean => {
      const tell =
        "import m from 'node:module'; process.on('exit', () => console.error(Object.keys(m._cache).join('\\n')))";
      const { stderr } = spawnSync(
        process.execPath,
        ['--import', `data:text/javascript,${tell}`, ...PROGRAM, ...words, '--help'],
        { encoding: 'utf8' },
      );
      return stderr.includes('/node_modules/@photostructure/sqlite/');
    };
    expect(loadsIt('brief')).toBe(true);
    expect(loadsIt('hindcast')).toBe(false);
  });
});
