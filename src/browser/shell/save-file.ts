/** Gives the user a file to keep. */
export function saveFile(name: string, content: string | Uint8Array, type: string): void {
  const part = typeof content === 'string' ? content : new Uint8Array(content);
  const address = URL.createObjectURL(new Blob([part], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has begun by then; before, some browsers would lose it.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** A name that every system takes for a file. */
export function fileName(name: string): string {
  const plain = name.replace(/[^\p{L}\p{N}._ -]+/gu, '-').replace(/^[. -]+|[. -]+$/g, '');
  return plain === '' ? 'my-cell' : plain;
}
