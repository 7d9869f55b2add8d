import { Clauses, NO_SPREAD } from "./clauses";
import type { Token } from "./scan";
import * as t from "./tokens";
import type {
  Amount,
  Clause,
  Comparison,
  Context,
  Declaration,
  Declared,
  Expr,
  Line,
  Path,
  Point,
  RecordClause,
  Statement,
  Text,
  Word,
} from "./tree";

const kw = t.keyword;
const figureStarts = [t.Num, t.Sign, t.LParen, t.Call, t.AxisWord];

/**
 * The statements of a line, one entry rule for each kind of block a line may stand in.
 * They are handed over one by one, so that what follows a stumble costs nothing that came before.
 */
export class Statements extends Clauses {
  found: Statement[] = [];

  constructor(validated = false) {
    super(validated);
    this.performSelfAnalysis();
  }

  /** Reads statements from the start of the tokens; gives the token it could not go on from. */
  read(context: Context, line: Line, tokens: readonly Token[]): Token | undefined {
    this.line = line;
    this.depth = 0;
    this.found = [];
    this.stumbles = [];
    this.input = tokens as Token[];
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

  protected pathsOrNone = this.RULE("pathsOrNone", (): Path[] => {
    let paths: Path[] = [];
    this.OPTION(() => {
      paths = this.SUBRULE(this.paths);
    });
    return paths;
  });

  protected declaration = this.RULE("declaration", (): Declaration => {
    const token = this.OR([
      { ALT: () => this.CONSUME(t.Declare) },
      { ALT: () => this.CONSUME(t.Figure) },
    ]);
    let path: Path | undefined;
    let title: Text | undefined;
    let figure: Expr | undefined;
    const clauses: Clause[] = [];
    this.OPTION({
      GATE: () => token.tokenType === t.Figure || !this.clauseWithFigure(),
      DEF: () => {
        path = this.SUBRULE(this.path);
      },
    });
    this.OPTION1(() => {
      title = this.SUBRULE(this.string);
    });
    this.OPTION2({
      GATE: () => token.tokenType === t.Figure,
      DEF: () => {
        figure = this.SUBRULE(this.expr);
      },
    });
    this.MANY(() => clauses.push(this.SUBRULE(this.clause)));
    const kind = token.image as Declared;
    return {
      kind,
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      installed: false,
      path,
      title,
      figure,
      clauses,
    };
  });

  /** `part weighed 3 lb`: the name is what is missing. */
  private clauseWithFigure(): boolean {
    return this.is(1, t.Keyword) && figureStarts.some(type => this.is(2, type));
  }

  protected clauseLine = this.RULE("clauseLine", (): Statement => {
    const clause = this.SUBRULE(this.clause);
    return { ...this.ACTION(() => this.since(clause.from)), kind: "clause", clause };
  });

  protected noteLine = this.RULE("noteLine", (): Statement => {
    const token = this.CONSUME(kw("note"));
    let text: Text | undefined;
    this.OPTION(() => {
      text = this.SUBRULE(this.string);
    });
    const span = this.since(token.startOffset);
    return { kind: "clause", ...span, clause: { kind: "note", ...span, text } };
  });

  protected include = this.RULE("include", (): Statement => {
    const token = this.CONSUME(kw("include"));
    let path: Text | undefined;
    this.OPTION(() => {
      path = this.SUBRULE(this.string);
    });
    return {
      kind: "include",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      path,
    };
  });

  protected let = this.RULE("let", (): Statement => {
    const token = this.CONSUME(kw("let"));
    let name: Word | undefined;
    let value: Expr | undefined;
    let spread: Expr | undefined;
    this.OPTION(() => {
      name = this.SUBRULE(this.word);
    });
    this.OPTION1(() => {
      this.CONSUME(t.Equals);
      this.OPTION2(() => {
        value = this.SUBRULE(this.expr);
      });
    });
    this.OPTION3(() => {
      const sign = this.CONSUME(t.PlusMinus);
      this.OPTION4(() => {
        spread = this.SUBRULE1(this.expr);
      });
      this.asks(sign, NO_SPREAD);
    });
    return {
      kind: "let",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      name,
      value,
      spread,
    };
  });

  protected require = this.RULE("require", (): Statement => {
    const token = this.CONSUME(kw("require"));
    const sides: Expr[] = [];
    const comparisons: Comparison[] = [];
    let everyLoading = false;
    let why: Text | undefined;
    this.OPTION(() => sides.push(this.SUBRULE(this.expr)));
    this.MANY(() => {
      const sign = this.CONSUME(t.Compare);
      comparisons.push(sign.image as Comparison);
      this.OPTION1(() => sides.push(this.SUBRULE1(this.expr)));
      this.ACTION(() => {
        const to = sign.endOffset! + 1;
        while (sides.length <= comparisons.length)
          sides.push({ kind: "missing", line: this.line, from: to, to });
      });
    });
    this.OPTION2(() => {
      const word = this.CONSUME(kw("for"));
      const every = this.OPTION3(() => this.CONSUME(kw("every")));
      this.OPTION4(() => this.CONSUME(kw("loading")));
      this.asks(every ?? word, "for what? write for every loading");
      everyLoading = true;
    });
    this.OPTION5(() => {
      why = this.SUBRULE(this.string);
    });
    return {
      kind: "require",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      sides,
      comparisons,
      everyLoading,
      why,
    };
  });

  protected waive = this.RULE("waive", (): Statement => {
    const token = this.CONSUME(kw("waive"));
    let code: Word | undefined;
    let of: Path | undefined;
    let requirement: Text | undefined;
    let until: Text | undefined;
    let why: Text | undefined;
    this.OPTION(() => {
      code = this.SUBRULE(this.code);
    });
    this.OPTION1(() => {
      this.CONSUME(kw("of"));
      this.OPTION2(() =>
        this.OR([
          {
            ALT: () => {
              of = this.SUBRULE(this.path);
            },
          },
          {
            ALT: () => {
              requirement = this.SUBRULE(this.string);
            },
          },
        ]),
      );
    });
    this.OPTION3(() => {
      const word = this.CONSUME(kw("until"));
      this.OPTION4(() => {
        until = this.SUBRULE(this.date);
      });
      this.asks(word, "until which day? write it as 2026-12-31");
    });
    this.OPTION5(() => {
      why = this.SUBRULE1(this.string);
    });
    return {
      kind: "waive",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      code,
      of,
      requirement,
      until,
      why,
    };
  });

  /** A finding's code: words joined with hyphens. */
  protected code = this.RULE("code", (): Word => {
    const from = this.start();
    let text = this.SUBRULE(this.word).text;
    this.MANY({
      GATE: () => this.LA(1).image === "-",
      DEF: () => {
        this.CONSUME(t.Sign);
        this.OPTION(() => {
          text += `-${this.SUBRULE1(this.word).text}`;
        });
      },
    });
    return { line: this.line, from, to: this.end(from), text };
  });

  protected limit = this.RULE("limit", (): Statement => {
    const token = this.CONSUME(kw("limit"));
    let amount: Expr | undefined;
    let of: Path[] = [];
    let why: Text | undefined;
    this.OPTION(() => {
      amount = this.SUBRULE(this.expr);
    });
    this.OPTION1(() => {
      this.CONSUME(kw("of"));
      of = this.SUBRULE(this.pathsOrNone);
    });
    this.OPTION2(() => {
      why = this.SUBRULE(this.string);
    });
    return {
      kind: "limit",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      amount,
      of,
      why,
    };
  });

  /** The heads of blocks that have a name, a title, and little else. */
  protected block = this.RULE("block", (): Statement => {
    let name: Word | undefined;
    let title: Text | undefined;
    let standard: Word | undefined;
    let ground = false;
    let serial: number | undefined;
    const under: Word[] = [];
    const token = this.OR([
      { ALT: () => this.CONSUME(kw("choice")) },
      { ALT: () => this.CONSUME(kw("envelope")) },
      { ALT: () => this.CONSUME(kw("configuration")) },
      { ALT: () => this.CONSUME(kw("loading")) },
      { ALT: () => this.CONSUME(kw("airframe")) },
    ]);
    this.OPTION(() => {
      name = this.SUBRULE(this.word);
    });
    this.OPTION1(() => {
      title = this.SUBRULE(this.string);
    });
    this.OPTION2({
      GATE: () => token.image === "choice",
      DEF: () => {
        const word = this.CONSUME(kw("default"));
        this.OPTION3(() => {
          standard = this.SUBRULE1(this.word);
        });
        this.asks(word, "which option is the default?");
      },
    });
    this.OPTION4({
      GATE: () => token.image === "configuration",
      DEF: () => {
        this.CONSUME(kw("ground"));
        ground = true;
      },
    });
    this.OPTION5({
      GATE: () => token.image === "loading",
      DEF: () => {
        const word = this.CONSUME(kw("under"));
        this.MANY_SEP({
          SEP: t.Comma,
          DEF: () => {
            const before = this.LA(0);
            this.OPTION8(() => under.push(this.SUBRULE2(this.word)));
            this.asksAfterComma(before);
          },
        });
        this.asks(word, "under which envelope?");
      },
    });
    this.OPTION6({
      GATE: () => token.image === "airframe",
      DEF: () => {
        const word = this.CONSUME(kw("serial"));
        this.OPTION7(() => {
          serial = Number(this.CONSUME(t.Num).image);
        });
        this.asks(word, "serial needs a number");
      },
    });
    const span = this.since(token.startOffset);
    switch (token.image) {
      case "choice":
        return { kind: "choice", ...span, name, title, standard };
      case "envelope":
        return { kind: "envelope", ...span, name, title };
      case "configuration":
        return { kind: "configuration", ...span, name, title, ground };
      case "loading":
        return { kind: "loading", ...span, name, title, under };
      default:
        return { kind: "airframe", ...span, name, title, serial };
    }
  });

  protected dated = this.RULE("dated", (): Statement => {
    const token = this.OR([
      { ALT: () => this.CONSUME(kw("change")) },
      { ALT: () => this.CONSUME(kw("weighing")) },
    ]);
    let name: Word | undefined;
    let of: Word | undefined;
    let on: Text | undefined;
    let title: Text | undefined;
    this.OPTION({
      // `weighing of sn003`: the name is what is missing
      GATE: () => this.LA(1).image !== "of" || this.LA(2).image === "of",
      DEF: () => {
        name = this.SUBRULE(this.word);
      },
    });
    this.OPTION1(() => {
      this.CONSUME(kw("of"));
      this.OPTION2(() => {
        of = this.SUBRULE1(this.word);
      });
    });
    this.OPTION3(() => {
      this.CONSUME(kw("on"));
      this.OPTION4(() => {
        on = this.SUBRULE(this.date);
      });
    });
    this.OPTION5(() => {
      title = this.SUBRULE(this.string);
    });
    return {
      kind: token.image as "change",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      name,
      of,
      on,
      title,
    };
  });

  protected amount = this.RULE("amount", (): Amount => {
    const from = this.start();
    let sides: Amount["sides"];
    let full = false;
    let value: Expr | undefined;
    let usable = false;
    this.OPTION(() => {
      const token = this.OR([
        { ALT: () => this.CONSUME(kw("total")) },
        { ALT: () => this.CONSUME(kw("each")) },
      ]);
      sides = token.image as "total" | "each";
    });
    this.OPTION1(() =>
      this.OR1([
        {
          ALT: () => {
            this.CONSUME(kw("full"));
            full = true;
          },
        },
        {
          ALT: () => {
            value = this.SUBRULE(this.expr);
          },
        },
      ]),
    );
    this.OPTION2(() => {
      this.CONSUME(kw("usable"));
      usable = true;
    });
    return { line: this.line, from, to: this.end(from), sides, full, value, usable };
  });

  protected load = this.RULE("load", (): Statement => {
    const path = this.SUBRULE(this.path);
    let amount: Amount | undefined;
    let at: Point | undefined;
    this.OPTION({
      // the next load on the same line begins with a name of its own
      GATE: () => !this.is(1, t.Ident) || !this.is(2, t.Num),
      DEF: () => {
        amount = this.SUBRULE(this.amount);
      },
    });
    this.OPTION1(() => {
      at = this.SUBRULE(this.atPoint);
    });
    return { kind: "load", ...this.ACTION(() => this.since(path.from)), path, amount, at };
  });

  protected use = this.RULE("use", (): Statement => {
    const token = this.OR([
      { ALT: () => this.CONSUME(kw("burn")) },
      { ALT: () => this.CONSUME(kw("release")) },
      { ALT: () => this.CONSUME(kw("taxi")) },
    ]);
    let path: Path | undefined;
    let downTo = false;
    let amount: Amount | undefined;
    this.OPTION(() => {
      path = this.SUBRULE(this.path);
    });
    this.OPTION1(() => {
      this.CONSUME(kw("to"));
      downTo = true;
    });
    this.OPTION2({
      GATE: () => downTo || !this.is(1, t.Ident) || !this.is(2, t.Num),
      DEF: () => {
        amount = this.SUBRULE(this.amount);
      },
    });
    return {
      kind: token.image as "burn",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      path,
      downTo,
      amount,
    };
  });

  protected choose = this.RULE("choose", (): Statement => {
    const token = this.CONSUME(kw("choose"));
    let choice: Word | undefined;
    let option: Word | undefined;
    this.OPTION(() => {
      choice = this.SUBRULE(this.word);
      this.OPTION1(() => {
        option = this.SUBRULE1(this.word);
      });
    });
    return {
      kind: "choose",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      choice,
      option,
    };
  });

  protected remove = this.RULE("remove", (): Statement => {
    const token = this.OR([
      { ALT: () => this.CONSUME(kw("remove")) },
      { ALT: () => this.CONSUME(kw("omit")) },
    ]);
    const paths = this.SUBRULE(this.pathsOrNone);
    let record: RecordClause | undefined;
    this.OPTION(() => {
      record = this.SUBRULE(this.record);
    });
    return {
      kind: "remove",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      paths,
      record,
    };
  });

  protected install = this.RULE("install", (): Statement => {
    const token = this.OR([
      { ALT: () => this.CONSUME(kw("install")) },
      { ALT: () => this.CONSUME(kw("add")) },
    ]);
    const span = this.since(token.startOffset);
    const nothing = { path: undefined, title: undefined, figure: undefined, clauses: [] };
    let declaration: Declaration = { kind: "part", ...span, installed: true, ...nothing };
    this.OPTION(() => {
      declaration = this.SUBRULE(this.declaration);
    });
    return { ...declaration, installed: true };
  });

  protected move = this.RULE("move", (): Statement => {
    const token = this.CONSUME(kw("move"));
    let path: Path | undefined;
    let target: Point | undefined;
    this.OPTION(() => {
      path = this.SUBRULE(this.path);
    });
    this.OPTION1(() => {
      this.CONSUME(kw("to"));
      this.OPTION2(() => {
        target = this.SUBRULE(this.point);
      });
    });
    return {
      kind: "move",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      path,
      target,
    };
  });

  /** `budget electrical 46 lb` in an airframe: of something else. */
  protected budgetLine = this.RULE("budgetLine", (): Statement => {
    const clause = this.SUBRULE(this.budgetClause);
    return { ...this.ACTION(() => this.since(clause.from)), kind: "clause", clause };
  });

  protected recordOf = this.RULE("recordOf", (): Statement => {
    const from = this.start();
    const { was, basis } = this.SUBRULE(this.maturity);
    let path: Path | undefined;
    let at: Point | undefined;
    this.OPTION1({
      GATE: () => !this.is(1, kw("total")),
      DEF: () => {
        path = this.SUBRULE(this.path);
      },
    });
    const record = this.SUBRULE(this.recordTail, { ARGS: [from, was, basis] });
    this.OPTION2(() => {
      at = this.SUBRULE(this.atPoint);
    });
    return { kind: "record-of", line: this.line, from, to: this.end(from), record, path, at };
  });

  protected scale = this.RULE("scale", (): Statement => {
    const token = this.CONSUME(kw("scale"));
    let name: Word | undefined;
    let title: Text | undefined;
    let at: Point | undefined;
    let spread: Expr | undefined;
    let tare: Expr | undefined;
    let by: Text | undefined;
    const reads: Expr[] = [];
    this.OPTION({
      GATE: () => this.LA(1).image !== "at" || this.LA(2).image === "at",
      DEF: () => {
        name = this.SUBRULE(this.word);
      },
    });
    this.OPTION1(() => {
      title = this.SUBRULE(this.string);
    });
    this.OPTION2(() => {
      at = this.SUBRULE(this.atPoint);
    });
    this.OPTION3(() => {
      this.CONSUME(kw("reads"));
      this.MANY_SEP({
        SEP: t.Comma,
        DEF: () => {
          const before = this.LA(0);
          this.option(10, () => reads.push(this.SUBRULE(this.expr)));
          this.asksAfterComma(before);
        },
      });
    });
    this.OPTION4(() => {
      const sign = this.CONSUME(t.PlusMinus);
      this.OPTION5(() => {
        spread = this.SUBRULE1(this.expr);
      });
      this.asks(sign, NO_SPREAD);
    });
    this.OPTION6(() => {
      const word = this.CONSUME(kw("tare"));
      this.OPTION7(() => {
        tare = this.SUBRULE2(this.expr);
      });
      this.asks(word, "tare needs a figure");
    });
    this.OPTION8(() => {
      const word = this.CONSUME(kw("by"));
      this.OPTION9(() => {
        by = this.SUBRULE1(this.string);
      });
      this.asks(word, "by needs a text in quotes");
    });
    return {
      kind: "scale",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      name,
      title,
      at,
      reads,
      spread,
      tare,
      by,
    };
  });

  protected aboard = this.RULE("aboard", (): Statement => {
    const token = this.CONSUME(kw("aboard"));
    let path: Path | undefined;
    let title: Text | undefined;
    let amount: Amount | undefined;
    let of: Word | undefined;
    let at: Point | undefined;
    this.OPTION(() => {
      path = this.SUBRULE(this.path);
    });
    this.OPTION1(() => {
      title = this.SUBRULE(this.string);
    });
    this.OPTION2(() => {
      amount = this.SUBRULE(this.amount);
    });
    this.OPTION3(() => {
      const word = this.CONSUME(kw("of"));
      this.OPTION4(() => {
        of = this.SUBRULE(this.word);
      });
      this.asks(word, "of which fluid?");
    });
    this.OPTION5(() => {
      at = this.SUBRULE(this.atPoint);
    });
    return {
      kind: "aboard",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      path,
      title,
      amount,
      of,
      at,
    };
  });

  protected missing = this.RULE("missing", (): Statement => {
    const token = this.CONSUME(kw("missing"));
    const paths = this.SUBRULE(this.pathsOrNone);
    return {
      kind: "missing",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      paths,
    };
  });
}

let parser: Statements | undefined;

/** The one parser: building it costs more than reading a large file, so it is built once, when needed. */
export function statementParser(): Statements {
  parser ??= new Statements();
  return parser;
}
