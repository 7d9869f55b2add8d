import { Records } from "./records";
import * as t from "./tokens";
import type {
  Axis,
  Basis,
  Clause,
  ClauseOf,
  Expr,
  InertiaName,
  PartKind,
  Path,
  Point,
  Rate,
  Text,
} from "./tree";

const kw = t.keyword;

/** What a declaration says of its pieces: how many, how spread out, how they may grow, what they may weigh. */
export class MassClauses extends Records {
  /** A word and a figure. */
  protected valueClause = this.RULE("valueClause", (): Clause => {
    let total = false;
    const token = this.OR([
      { ALT: () => this.CONSUME(kw("qty")) },
      { ALT: () => this.CONSUME(kw("margin")) },
      { ALT: () => this.CONSUME(kw("creep")) },
      { ALT: () => this.CONSUME(t.WeightLimit) },
      {
        ALT: () => {
          const moment = this.CONSUME(kw("moment"));
          this.OPTION(() => {
            this.CONSUME(kw("total"));
            total = true;
          });
          return moment;
        },
      },
    ]);
    let value: Expr | undefined;
    this.OPTION1(() => {
      value = this.SUBRULE(this.expr);
    });
    return {
      kind: token.image as "qty",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      value,
      total,
    } as Clause;
  });

  /** A word and a quoted text, or for `kind` one of four words. */
  protected textClause = this.RULE("textClause", (): Clause => {
    let value: PartKind | undefined;
    let text: Text | undefined;
    const token = this.OR([
      { ALT: () => this.CONSUME(t.TextClause) },
      { ALT: () => this.CONSUME(kw("note")) },
      { ALT: () => this.CONSUME(kw("rev")) },
      {
        ALT: () => {
          const kind = this.CONSUME(kw("kind"));
          this.OPTION(() => {
            value = this.CONSUME(t.KindWord).image as PartKind;
          });
          return kind;
        },
      },
    ]);
    this.OPTION1(() => {
      text = this.textOf(this.CONSUME(t.Str));
    });
    const kind = token.image as "pn" | "note" | "rev" | "kind";
    const span = this.since(token.startOffset);
    return kind === "kind" ? { kind, ...span, value } : { kind, ...span, text };
  });

  protected flag = this.RULE("flag", (): Clause => {
    const token = this.OR([
      { ALT: () => this.CONSUME(kw("mirrored")) },
      { ALT: () => this.CONSUME(kw("operating")) },
    ]);
    return {
      kind: token.image as "mirrored",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
    };
  });

  protected spanClause = this.RULE("spanClause", (): Clause => {
    const token = this.CONSUME(kw("span"));
    const to = this.ACTION(() => token.endOffset! + 1);
    let start: Point = { line: this.line, from: to, to, coords: [] };
    let end: Point | undefined;
    this.OPTION(() => {
      start = this.SUBRULE(this.point);
    });
    this.OPTION1(() => {
      this.CONSUME(t.Range);
      this.OPTION2(() => {
        end = this.SUBRULE1(this.point);
      });
    });
    return {
      kind: "span",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      start,
      end,
    };
  });

  protected inertiaClause = this.RULE("inertiaClause", (): Clause => {
    const token = this.CONSUME(kw("inertia"));
    const terms: { name: InertiaName; value: Expr | undefined }[] = [];
    this.MANY_SEP({
      SEP: t.Comma,
      DEF: () => {
        const before = this.LA(0);
        this.OPTION(() => {
          const word = this.CONSUME(t.InertiaWord);
          let value: Expr | undefined;
          this.OPTION1(() => {
            value = this.SUBRULE(this.expr);
          });
          this.asks(word, `${word.image} needs a figure`);
          terms.push({ name: word.image as InertiaName, value });
        });
        this.asksAfterComma(before);
      },
    });
    return {
      kind: "inertia",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      terms,
    };
  });

  protected shapeClause = this.RULE("shapeClause", (): Clause => {
    const token = this.CONSUME(kw("shape"));
    let shape: ClauseOf<"shape">["shape"];
    const sizes: Expr[] = [];
    let along: Axis | undefined;
    this.OPTION(() => {
      shape = this.CONSUME(t.ShapeWord).image as ClauseOf<"shape">["shape"];
    });
    this.MANY_SEP({
      SEP: t.Comma,
      DEF: () => {
        const before = this.LA(0);
        this.OPTION1(() => sizes.push(this.SUBRULE(this.expr)));
        this.asksAfterComma(before);
      },
    });
    this.OPTION2(() => {
      const word = this.CONSUME(kw("along"));
      this.OPTION3(() => {
        along = this.CONSUME(t.AxisWord).image as Axis;
      });
      this.asks(word, "along which axis? write FS, BL or WL");
    });
    return {
      kind: "shape",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      shape,
      sizes,
      along,
    };
  });

  protected ratesClause = this.RULE("ratesClause", (): Clause => {
    const token = this.OR([
      { ALT: () => this.CONSUME(kw("growth")) },
      { ALT: () => this.CONSUME(kw("spread")) },
    ]);
    const rates: Rate[] = [];
    this.OPTION(() =>
      this.OR1([
        {
          ALT: () => {
            rates.push(this.SUBRULE(this.rate));
            this.MANY(() => {
              const comma = this.CONSUME(t.Comma);
              this.OPTION1(() => rates.push(this.SUBRULE1(this.rate)));
              this.asksAfterComma(comma);
            });
          },
        },
        {
          ALT: () => {
            const from = this.start();
            const value = this.SUBRULE(this.expr);
            rates.push({
              line: this.line,
              from,
              to: this.end(from),
              basis: undefined,
              value,
              common: undefined,
            });
          },
        },
      ]),
    );
    return {
      kind: token.image as "growth",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      rates,
    };
  });

  protected rate = this.RULE("rate", (): Rate => {
    const token = this.CONSUME(t.Basis);
    let value: Expr | undefined;
    let common: Expr | undefined;
    this.OPTION(() => {
      value = this.SUBRULE(this.expr);
    });
    this.OPTION1(() => {
      const word = this.CONSUME(kw("common"));
      this.OPTION2(() => {
        common = this.SUBRULE1(this.expr);
      });
      this.asks(word, "common needs a percentage");
    });
    return {
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      basis: token.image as Basis,
      value,
      common,
    };
  });

  protected budgetClause = this.RULE("budgetClause", (): Clause => {
    const token = this.CONSUME(kw("budget"));
    let of: Path | undefined;
    let value: Expr | undefined;
    let margin: Expr | undefined;
    this.OPTION({
      GATE: () => this.pathThenFigure(),
      DEF: () => {
        of = this.SUBRULE(this.path);
      },
    });
    this.OPTION1(() => {
      value = this.SUBRULE(this.expr);
    });
    this.OPTION2(() => {
      const word = this.CONSUME(kw("margin"));
      this.OPTION3(() => {
        margin = this.SUBRULE1(this.expr);
      });
      this.asks(word, "margin needs a figure");
    });
    return {
      kind: "budget",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      of,
      value,
      margin,
    };
  });

  /** `budget electrical 46 lb` speaks of something else; `budget cap + 2 lb` is a figure alone. */
  private pathThenFigure(): boolean {
    if (!this.is(1, t.Word)) return false;
    let k = 2;
    while (this.is(k, t.Dot) && this.is(k + 1, t.Word)) k += 2;
    return [t.Num, t.Ident, t.Call, t.LParen].some(type => this.is(k, type));
  }

  protected effectiveClause = this.RULE("effectiveClause", (): Clause => {
    const token = this.CONSUME(kw("effective"));
    const serials = this.SUBRULE(this.serials);
    return {
      kind: "effective",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      serials,
    };
  });
}
