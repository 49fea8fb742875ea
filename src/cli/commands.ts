import type { Command } from 'commander';

/** Commands in the order of the help, each loaded when it is asked for: all of them take half a second to load. */
export const COMMANDS: Readonly<Record<string, () => Promise<(root: Command) => void>>> = {
  demo: async () => (await import('./demo.ts')).addDemoCommand,
  init: async () => (await import('./init.ts')).addInitCommand,
  brief: async () => (await import('./brief.ts')).addBriefCommand,
  send: async () => (await import('./send.ts')).addSendCommand,
  run: async () => (await import('./run.ts')).addRunCommand,
  reload: async () => (await import('./reload.ts')).addReloadCommand,
  status: async () => (await import('./status.ts')).addStatusCommand,
  readers: async () => (await import('./readers.ts')).addReadersCommands,
  web: async () => (await import('./web.ts')).addWebCommand,
  preview: async () => (await import('./preview.ts')).addPreviewCommand,
  'what-if': async () => (await import('./whatIf.ts')).addWhatIfCommand,
  reading: async () => (await import('./reading.ts')).addReadingCommands,
  notice: async () => (await import('./notice.ts')).addNoticeCommands,
  mail: async () => (await import('./mail.ts')).addMailCommands,
  record: async () => (await import('./record.ts')).addRecordCommands,
  hindcast: async () => (await import('./hindcast.ts')).addHindcastCommand,
  check: async () => (await import('./check.ts')).addCheckCommand,
  completion: async () => (await import('./completion.ts')).addCompletionCommand,
  man: async () => (await import('./man.ts')).addManCommand,
};
