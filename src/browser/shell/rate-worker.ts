/** The worker of the robot's sequence, whose script the page carries as it is. */

const SCRIPT = 'carried-rate-engine';

let address: string | null = null;

/** Starts one as a classic script from a blob: the only kind that starts in a page opened from disk. */
export function rateWorker(): Worker {
  address ??= URL.createObjectURL(
    new Blob([document.getElementById(SCRIPT)?.textContent ?? ''], { type: 'text/javascript' }),
  );
  return new Worker(address);
}
