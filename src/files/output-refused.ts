/** Something that the program will not write over, in a whole sentence for the user. */
export class OutputRefused extends Error {
  override readonly name = 'OutputRefused';
}
