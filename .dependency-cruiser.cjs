/** The floors: each room may use only the rooms below it, and the pure rooms touch no clock, network or file. */
const floors = [
  ['units', []],
  ['science', ['units']],
  ['water', ['units', 'science']],
  ['config', ['units']],
  ['record', ['units']],
  ['services', ['units', 'record', 'config']],
  ['signals', ['units', 'science', 'water', 'record', 'config']],
  ['advice', ['units', 'science', 'signals', 'config']],
  ['briefing', ['units', 'signals', 'advice', 'config']],
  ['verification', ['units', 'science', 'water', 'record', 'config', 'signals', 'advice', 'briefing']],
  ['render', ['units', 'science', 'signals', 'advice', 'briefing', 'config']],
  ['delivery', ['units', 'config', 'record', 'briefing', 'render']],
  [
    'schedule',
    [
      'units',
      'science',
      'water',
      'config',
      'record',
      'services',
      'signals',
      'advice',
      'briefing',
      'verification',
      'render',
      'delivery',
    ],
  ],
  [
    'web',
    [
      'units',
      'science',
      'water',
      'config',
      'record',
      'services',
      'signals',
      'advice',
      'briefing',
      'verification',
      'render',
      'delivery',
      'schedule',
    ],
  ],
];
const pure = '^src/(units|science|water|signals|advice|briefing|verification)/';
module.exports = {
  forbidden: [
    ...floors.map(([room, below]) => ({
      name: `${room}-floor`,
      comment: `${room}/ may use only: ${below.join(', ') || 'nothing'}`,
      severity: 'error',
      from: { path: `^src/${room}/` },
      to: { path: '^src/', pathNot: `^src/(${[room, ...below].join('|')})/` },
    })),
    {
      name: 'pure-rooms',
      comment:
        'the way from signals to briefing is a pure function: no files, network, processes, clock or database',
      severity: 'error',
      from: { path: pure },
      to: {
        path: '^(node:)?(fs|fs/promises|net|http|https|child_process|os|worker_threads|dns|timers|process)$|node_modules/(undici|kysely|libsql|nodemailer|node-cron|pino)',
      },
    },
    {
      name: 'no-circular',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
  },
};
