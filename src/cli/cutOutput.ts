/** What becomes of a command whose output takes no more. */
import { ThawlineError } from '../units/index.ts';

let isCut = false;

/**
 * Watches both outputs, so that a fault of them is nobody's stack.
 *
 * @param tell gets what cut one off; not where whoever reads us has read enough, as `head` does
 */
export function watchOutputs(tell: (error: ThawlineError) => void): void {
  let isTold = false;
  for (const stream of [process.stdout, process.stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (stream === process.stdout) isCut = true;
      if (error.code === 'EPIPE' || isTold) return;
      isTold = true;
      const why = error.code ?? error.message;
      tell(
        new ThawlineError(
          'usage',
          `What was printed could not be written to its end (${why}): make room, or print elsewhere.`,
        ),
      );
    });
}

/**
 * Writes to the standard output and waits while it is full.
 *
 * @returns false when it takes no more, so that a long command may end
 */
export async function wrote(text: string): Promise<boolean> {
  const out = process.stdout;
  if (isCut) return false;
  if (out.write(text)) return true;
  await new Promise<void>((go) => {
    const on = (): void => {
      out.off('drain', on).off('error', on);
      go();
    };
    out.on('drain', on).on('error', on);
  });
  return !isCut;
}
