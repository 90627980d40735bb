/** What the system says about a failed read or write, in plain words. */

export interface SystemReason {
  /** The system's code, such as `ENOENT`; empty where there is none. */
  readonly code: string;
  readonly text: string;
}

const WORDS: Readonly<Record<string, string>> = {
  EACCES: 'access is denied',
  EPERM: 'access is denied',
  EEXIST: 'a file is where the folder should be',
  ENOENT: 'it is not there',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of the path is not a folder',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk is write-protected',
  EMFILE: 'too many files are open',
  ELOOP: 'its links refer to each other',
  ENAMETOOLONG: 'the path is too long',
  EBUSY: 'it is in use by another program',
  EXDEV: 'it lies on another disk',
  EIO: 'the disk reports a fault',
};

/** @param code of the system, such as `ENOSPC` */
export function reasonOf(code: string): string {
  return WORDS[code] ?? `the system reports ${code}`;
}

/** @throws the error itself where it is not one of the system's: a fault of the program is not to be hidden */
export function systemReason(error: unknown): SystemReason {
  const code = error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
  if (code === '') throw error;
  return { code, text: reasonOf(code) };
}
