/** The commands in the order of the help: what the help says of each, and how it is loaded once it is asked for. */
import type { Command } from 'commander';

interface Row {
  /** As the help shows it; a test holds it against the command itself. */
  readonly term: string;
  readonly says: string;
  readonly load: () => Promise<(root: Command) => void>;
}

export const COMMANDS: Readonly<Record<string, Row>> = {
  demo: {
    term: 'demo [options]',
    says: 'a complete briefing of an invented lake, offline, in seconds',
    load: async () => (await import('./demo.ts')).addDemoCommand,
  },
  init: {
    term: 'init [options]',
    says: 'look a lake up and write the configuration and the service units for it',
    load: async () => (await import('./init.ts')).addInitCommand,
  },
  brief: {
    term: 'brief [options] <lake>',
    says: 'fetch, compute and print the briefing of a lake, all of it; nothing is mailed',
    load: async () => (await import('./brief.ts')).addBriefCommand,
  },
  send: {
    term: 'send [options] <lake>',
    says: "make today's briefing of a lake and mail it to its readers, once a local date",
    load: async () => (await import('./send.ts')).addSendCommand,
  },
  run: {
    term: 'run [options]',
    says: 'stay and work: refresh through the night, issue and mail every morning, serve the pages',
    load: async () => (await import('./run.ts')).addRunCommand,
  },
  work: {
    term: 'work',
    says: 'be one of many workers on a record in PostgreSQL: refresh, issue and mail what is due',
    load: async () => (await import('./work.ts')).addWorkCommand,
  },
  reload: {
    term: 'reload',
    says: 'have the running `thawline run` take up the changed configuration, or say why it cannot',
    load: async () => (await import('./reload.ts')).addReloadCommand,
  },
  'tune-link': {
    term: 'tune-link',
    says: 'print a link, good for a day, to the page where a threshold is tried on past mornings',
    load: async () => (await import('./tuneLink.ts')).addTuneLinkCommand,
  },
  status: {
    term: 'status [options]',
    says: 'per lake: last refresh, last and next issue, readers, mails; ends with 1 when something needs you',
    load: async () => (await import('./status.ts')).addStatusCommand,
  },
  jobs: {
    term: 'jobs',
    says: 'work that failed again and again: see it, try it at once, or let it go',
    load: async () => (await import('./jobs.ts')).addJobsCommands,
  },
  readers: {
    term: 'readers',
    says: 'who gets the briefing',
    load: async () => (await import('./readers.ts')).addReadersCommands,
  },
  web: {
    term: 'web [options]',
    says: 'only serve the pages (run does it too): subscribe, settings, archive, what-if, health',
    load: async () => (await import('./web.ts')).addWebCommand,
  },
  preview: {
    term: 'preview [options] <lake>',
    says: 'show the page of a lake in a browser on this machine; reloads when configuration or templates change',
    load: async () => (await import('./preview.ts')).addPreviewCommand,
  },
  'what-if': {
    term: 'what-if [options] [file]',
    says: 'advice for conditions you write down yourself (YAML or JSON)',
    load: async () => (await import('./whatIf.ts')).addWhatIfCommand,
  },
  reading: {
    term: 'reading',
    says: 'water temperatures and clarity that you measured',
    load: async () => (await import('./reading.ts')).addReadingCommands,
  },
  release: {
    term: 'release',
    says: 'hours of release that the operator of the dam told',
    load: async () => (await import('./release.ts')).addReleaseCommands,
  },
  outing: {
    term: 'outing',
    says: 'what readers tell of their days on the water, blank days most of all',
    load: async () => (await import('./outing.ts')).addOutingCommands,
  },
  notice: {
    term: 'notice',
    says: 'what you have to tell the readers of a lake',
    load: async () => (await import('./notice.ts')).addNoticeCommands,
  },
  mail: {
    term: 'mail',
    says: 'the way out for mail',
    load: async () => (await import('./mail.ts')).addMailCommands,
  },
  record: {
    term: 'record',
    says: 'look into the record, tidy it, take it out',
    load: async () => (await import('./record.ts')).addRecordCommands,
  },
  replay: {
    term: 'replay [options] <lake>',
    says: 'the mornings of a past season, each with what it could have known: a CSV line a day, a page of ribbons',
    load: async () => (await import('./replay.ts')).addReplayCommand,
  },
  compare: {
    term: 'compare [options] <lake>',
    says: 'the days of a past season on which other rules would have said something else, and what moved them',
    load: async () => (await import('./replay.ts')).addCompareCommand,
  },
  learn: {
    term: 'learn [options] <lake>',
    says: 'propose weights of rules that outings speak against, as YAML to look at and paste; nothing is changed',
    load: async () => (await import('./learn.ts')).addLearnCommand,
  },
  hindcast: {
    term: 'hindcast [options] [lake]',
    says: 'estimate past water temperature of a lake or river from weather and readings, strictly causally, and score it',
    load: async () => (await import('./hindcast.ts')).addHindcastCommand,
  },
  check: {
    term: 'check [options]',
    says: 'prove the morning: every gauge, position and zone, the page of today, the way out for mail and back by its links',
    load: async () => (await import('./check.ts')).addCheckCommand,
  },
  completion: {
    term: 'completion <shell>',
    says: 'print the completion of commands and options for bash, zsh or fish',
    load: async () => (await import('./completion.ts')).addCompletionCommand,
  },
  man: {
    term: 'man',
    says: 'print the manual page: thawline man | man -l -',
    load: async () => (await import('./man.ts')).addManCommand,
  },
};
