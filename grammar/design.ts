import { Clauses } from "./clauses";
import { NO_SPREAD } from "./records";
import * as t from "./tokens";
import type {
  Clause,
  Comparison,
  Declaration,
  Declared,
  Expr,
  Path,
  Statement,
  Text,
  Word,
} from "./tree";

const kw = t.keyword;
const figureStarts = [t.Num, t.Sign, t.LParen, t.Call, t.AxisWord];

/** The statements of a design: declarations, values, requirements, and the heads of blocks. */
export class DesignStatements extends Clauses {
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
      title = this.textOf(this.CONSUME(t.Str));
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
      text = this.textOf(this.CONSUME(t.Str));
    });
    const span = this.since(token.startOffset);
    return { kind: "clause", ...span, clause: { kind: "note", ...span, text } };
  });

  protected include = this.RULE("include", (): Statement => {
    const token = this.CONSUME(kw("include"));
    let path: Text | undefined;
    this.OPTION(() => {
      path = this.textOf(this.CONSUME(t.Str));
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
      name = this.textOf(this.CONSUME(t.Word));
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
      why = this.textOf(this.CONSUME(t.Str));
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
              requirement = this.textOf(this.CONSUME(t.Str));
            },
          },
        ]),
      );
    });
    this.OPTION3(() => {
      const word = this.CONSUME(kw("until"));
      this.OPTION4(() => {
        until = this.textOf(this.CONSUME(t.DateText));
      });
      this.asks(word, "until which day? write it as 2026-12-31");
    });
    this.OPTION5(() => {
      why = this.textOf(this.CONSUME1(t.Str));
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
    let text = this.textOf(this.CONSUME(t.Word)).text;
    this.MANY({
      GATE: () => this.LA(1).image === "-",
      DEF: () => {
        this.CONSUME(t.Sign);
        this.OPTION(() => {
          text += `-${this.textOf(this.CONSUME1(t.Word)).text}`;
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
      why = this.textOf(this.CONSUME(t.Str));
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
      name = this.textOf(this.CONSUME(t.Word));
    });
    this.OPTION1(() => {
      title = this.textOf(this.CONSUME(t.Str));
    });
    this.OPTION2({
      GATE: () => token.image === "choice",
      DEF: () => {
        const word = this.CONSUME(kw("default"));
        this.OPTION3(() => {
          standard = this.textOf(this.CONSUME1(t.Word));
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
            this.OPTION8(() => under.push(this.textOf(this.CONSUME2(t.Word))));
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
        name = this.textOf(this.CONSUME(t.Word));
      },
    });
    this.OPTION1(() => {
      this.CONSUME(kw("of"));
      this.OPTION2(() => {
        of = this.textOf(this.CONSUME1(t.Word));
      });
    });
    this.OPTION3(() => {
      this.CONSUME(kw("on"));
      this.OPTION4(() => {
        on = this.textOf(this.CONSUME(t.DateText));
      });
    });
    this.OPTION5(() => {
      title = this.textOf(this.CONSUME(t.Str));
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
}
