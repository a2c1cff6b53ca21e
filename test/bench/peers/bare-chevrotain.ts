// The little block language in nothing but chevrotain, lexed and parsed into its plain tree: as fast as it goes.
import { CstParser, createToken, Lexer, type TokenType } from 'chevrotain';

const Space = createToken({ name: 'Space', pattern: /[ \t\r\n]+/, group: Lexer.SKIPPED });
const Comment = createToken({ name: 'Comment', pattern: /\/\/[^\n]*/, group: Lexer.SKIPPED });
const Name = createToken({ name: 'Name', pattern: /[a-z_][a-z0-9_]*/ });
const Num = createToken({ name: 'Num', pattern: /\d+(?:\.\d+)?/ });
const Text = createToken({ name: 'Text', pattern: /"[^"\n]*"/ });
const Open = createToken({ name: 'Open', pattern: '{' });
const Close = createToken({ name: 'Close', pattern: '}' });
const Comma = createToken({ name: 'Comma', pattern: ',' });
const word = (text: string): TokenType =>
  createToken({ name: `Word-${text}`, pattern: new RegExp(text), longer_alt: Name });
const Part = word('part');
const Material = word('material');
const Finish = word('finish');
const Thickness = word('thickness');
const Width = word('width');
const Height = word('height');
const Note = word('note');
const Joins = word('joins');
const Mm = word('mm');
const words = [Part, Material, Finish, Thickness, Width, Height, Note, Joins, Mm];
const tokens = [Space, Comment, ...words, Name, Num, Text, Open, Close, Comma];
const lexer = new Lexer(tokens, { ensureOptimizations: true });

class Blocks extends CstParser {
  readonly file = this.RULE('file', () => {
    this.MANY(() => this.SUBRULE(this.part));
  });

  private readonly part = this.RULE('part', () => {
    this.CONSUME(Part);
    this.CONSUME(Name);
    this.CONSUME(Open);
    this.MANY(() => this.SUBRULE(this.fact));
    this.CONSUME(Close);
  });

  private readonly fact = this.RULE('fact', () => {
    this.OR([
      { ALT: () => this.choice(1, Material) },
      { ALT: () => this.choice(2, Finish) },
      { ALT: () => this.size(1, Thickness) },
      { ALT: () => this.size(2, Width) },
      { ALT: () => this.size(3, Height) },
      {
        ALT: () => {
          this.CONSUME(Note);
          this.CONSUME(Text);
        },
      },
      {
        ALT: () => {
          this.CONSUME(Joins);
          this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => this.CONSUME9(Name) });
        },
      },
    ]);
  });

  private choice(index: number, opener: TokenType): void {
    this.consume(index, opener);
    this.consume(index, Name);
  }

  private size(index: number, opener: TokenType): void {
    this.consume(index, opener);
    this.consume(index, Num);
    this.consume(index, Mm);
  }

  constructor() {
    super(tokens, { recoveryEnabled: true, maxLookahead: 1, nodeLocationTracking: 'none' });
    this.performSelfAnalysis();
  }
}

const parser = new Blocks();

export function parseBlocks(text: string): void {
  parser.input = lexer.tokenize(text).tokens;
  parser.file();
  if (parser.errors[0]) throw parser.errors[0];
}
