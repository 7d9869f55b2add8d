import type { Token } from "./scan";
import { ShopStatements } from "./shop";
import * as t from "./tokens";
import type { Context, Line, Statement } from "./tree";

const kw = t.keyword;

/**
 * The statements of a line, one entry rule for each kind of block a line may stand in.
 * They are handed over one by one, so that what follows a stumble costs nothing that came before.
 */
export class Statements extends ShopStatements {
  found: Statement[] = [];

  constructor(validated = false) {
    super(validated);
    this.performSelfAnalysis();
  }

  /** Reads statements from one of the tokens on; gives the token it could not go on from. */
  read(context: Context, line: Line, tokens: readonly Token[], at: number): Token | undefined {
    this.line = line;
    this.depth = 0;
    this.found = [];
    this.stumbles = [];
    this.input = tokens as Token[];
    // not among its types; a copy of the rest of the line at each stumble would make long lines slow
    (this as unknown as Resumable).importLexerState(at - 1);
    this[context]();
    return this.errors[0]?.token as Token | undefined;
  }

  body = this.RULE("body", () => {
    this.MANY(() => {
      const statement = this.OR<Statement>([
        { ALT: () => this.SUBRULE(this.declaration) },
        { ALT: () => this.SUBRULE(this.clauseLine) },
        { ALT: () => this.SUBRULE(this.include) },
        { ALT: () => this.SUBRULE(this.let) },
        { ALT: () => this.SUBRULE(this.require) },
        { ALT: () => this.SUBRULE(this.waive) },
        { ALT: () => this.SUBRULE(this.limit) },
        { ALT: () => this.SUBRULE(this.block) },
        { ALT: () => this.SUBRULE(this.dated) },
      ]);
      this.keep(statement);
    });
  });

  loading = this.RULE("loading", () => {
    this.MANY(() => {
      const statement = this.OR<Statement>([
        // a tank may be called `burn` too: then an amount follows
        { GATE: () => !this.is(2, t.Num), ALT: () => this.SUBRULE(this.use) },
        { ALT: () => this.SUBRULE(this.load) },
      ]);
      this.keep(statement);
    });
  });

  fits = this.RULE("fits", () => {
    this.MANY(() => {
      const statement = this.OR<Statement>([
        { ALT: () => this.SUBRULE(this.choose) },
        { ALT: () => this.SUBRULE(this.remove) },
        { ALT: () => this.SUBRULE(this.install) },
        { ALT: () => this.SUBRULE(this.move) },
        { ALT: () => this.SUBRULE(this.budgetLine) },
        { ALT: () => this.SUBRULE(this.recordOf) },
        { ALT: () => this.SUBRULE(this.serialOf) },
        { ALT: () => this.SUBRULE(this.noteLine) },
      ]);
      this.keep(statement);
    });
  });

  weighing = this.RULE("weighing", () => {
    this.MANY(() => {
      const statement = this.OR<Statement>([
        { ALT: () => this.SUBRULE(this.scale) },
        { ALT: () => this.SUBRULE(this.aboard) },
        { ALT: () => this.SUBRULE(this.missing) },
        { ALT: () => this.SUBRULE(this.noteLine) },
      ]);
      this.keep(statement);
    });
  });

  configuration = this.RULE("configuration", () => {
    this.MANY(() => {
      const from = this.start();
      this.CONSUME(kw("swing"));
      const paths = this.SUBRULE(this.pathsOrNone);
      const statement: Statement = {
        kind: "swing-these",
        line: this.line,
        from,
        to: this.end(from),
        paths,
      };
      this.keep(statement);
    });
  });

  private keep(statement: Statement): void {
    this.ACTION(() => this.found.push(statement));
  }
}

/** Chevrotain's parser, told which token it read last. */
interface Resumable {
  importLexerState(last: number): void;
}

let parser: Statements | undefined;

/** The one parser: building it costs more than reading a large file, so it is built once, when needed. */
export function statementParser(): Statements {
  parser ??= new Statements();
  return parser;
}
