import { DesignStatements } from "./design";
import { NO_SPREAD } from "./records";
import * as t from "./tokens";
import type {
  Amount,
  Declaration,
  Expr,
  Path,
  Point,
  RecordClause,
  Statement,
  Text,
  Word,
} from "./tree";

const kw = t.keyword;

/** What stands in the blocks of a loading, an airframe, a change and a weighing. */
export class ShopStatements extends DesignStatements {
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
      choice = this.textOf(this.CONSUME(t.Word));
      this.OPTION1(() => {
        option = this.textOf(this.CONSUME1(t.Word));
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

  /** `sn power.engine "E-1207"` in an airframe: the serial number of what is fitted there. */
  protected serialOf = this.RULE("serialOf", (): Statement => {
    const token = this.CONSUME(kw("sn"));
    let path: Path | undefined;
    let text: Text | undefined;
    this.OPTION(() => {
      path = this.SUBRULE(this.path);
    });
    this.OPTION1(() => {
      text = this.textOf(this.CONSUME(t.Str));
    });
    return {
      kind: "serial-of",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      path,
      text,
    };
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
        name = this.textOf(this.CONSUME(t.Word));
      },
    });
    this.OPTION1(() => {
      title = this.textOf(this.CONSUME(t.Str));
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
        by = this.textOf(this.CONSUME1(t.Str));
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
      title = this.textOf(this.CONSUME(t.Str));
    });
    this.OPTION2(() => {
      amount = this.SUBRULE(this.amount);
    });
    this.OPTION3(() => {
      const word = this.CONSUME(kw("of"));
      this.OPTION4(() => {
        of = this.textOf(this.CONSUME(t.Word));
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
