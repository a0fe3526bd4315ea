/** Bad input at the command line: one or more whole sentences, each naming the place and the remedy. */
export class Refusal extends Error {
  readonly sentences: readonly string[];

  constructor(...sentences: readonly string[]) {
    super(sentences.join('\n'));
    this.name = 'Refusal';
    this.sentences = sentences;
  }
}
