// What only its own file uses is no export. In the look at the shipped program alone it may be: tests ask for it.
const isProduction = process.argv.includes('--production');

export default {
  entry: ['src/cli/main.ts!', 'scripts/**/*.{ts,mjs}!', 'bench/*.ts!', 'tests/**/*.{ts,mjs}'],
  project: ['src/**/*.ts!', 'tests/**/*.ts', 'bench/**/*.ts!', 'scripts/**/*.{ts,mjs}!'],
  ignoreExportsUsedInFile: isProduction ? true : { interface: true, type: true },
  ignoreDependencies: ['@types/mailparser', '@types/smtp-server', 'axe-core'],
};
