import { Expressions } from "./expressions";
import * as t from "./tokens";
import type {
  Axis,
  Basis,
  Bound,
  Clause,
  ClauseOf,
  Coord,
  Expr,
  InertiaName,
  PartKind,
  Path,
  Point,
  Rate,
  RecordClause,
  Serials,
  Span,
  Text,
  Toward,
  UnitPower,
  Word,
} from "./tree";

const kw = t.keyword;

export const NO_SPREAD = "± how much? write a figure or a percentage";
const NO_PLACE = "where? write FS and a station, BL and WL if known";

/** What may stand behind a declaration's name, on its line or one a line in its block. */
export class Clauses extends Expressions {
  protected serials = this.RULE("serials", (): Serials => {
    const from = this.start();
    let first: number | undefined;
    let last: number | undefined;
    let open = false;
    this.OPTION(() => {
      first = Number(this.CONSUME(t.Num).image);
    });
    this.OPTION1(() => {
      this.CONSUME(t.Range);
      open = true;
      this.OPTION2(() => {
        last = Number(this.CONSUME1(t.Num).image);
      });
    });
    if (!open)
      this.ACTION(() => this.stumble(this.LA(0), "which serials? write 5 .. or .. 4 or 2 .. 4"));
    return { line: this.line, from, to: this.end(from), first, last };
  });

  protected axis = this.RULE("axis", (): Axis => this.CONSUME(t.AxisWord).image as Axis);

  point = this.RULE("point", (): Point => {
    const from = this.start();
    const coords = [this.SUBRULE(this.coord)];
    this.MANY(() => {
      const comma = this.CONSUME(t.Comma);
      this.OPTION(() => coords.push(this.SUBRULE1(this.coord)));
      this.asksAfterComma(comma);
    });
    return { line: this.line, from, to: this.end(from), coords };
  });

  protected coord = this.RULE("coord", (): Coord => {
    const from = this.start();
    const axis = this.SUBRULE(this.axis);
    let value: Expr | undefined;
    let upTo: Expr | undefined;
    this.OPTION(() => {
      value = this.SUBRULE(this.expr);
    });
    this.OPTION1({
      // `span FS 10 .. FS 96` goes on with a point, not with this coordinate's range
      GATE: () => !this.is(2, t.AxisWord),
      DEF: () => {
        const range = this.CONSUME(t.Range);
        this.OPTION2(() => {
          upTo = this.SUBRULE1(this.expr);
        });
        this.asks(range, "a range has two ends: the upper one is missing");
      },
    });
    return { line: this.line, from, to: this.end(from), axis, value, upTo };
  });

  record = this.RULE("record", (): RecordClause => {
    const from = this.start();
    const { was, basis } = this.SUBRULE(this.maturity);
    return this.SUBRULE(this.recordTail, { ARGS: [from, was, basis] });
  });

  protected maturity = this.RULE("maturity", (): Pick<RecordClause, "was" | "basis"> => {
    let was = false;
    // what was counts for nothing, whatever its basis
    let basis: Basis = "estimated";
    this.OR([
      {
        ALT: () => {
          basis = this.CONSUME(t.Basis).image as Basis;
        },
      },
      {
        ALT: () => {
          const word = this.CONSUME(kw("was"));
          was = true;
          this.OPTION(() => {
            basis = this.CONSUME1(t.Basis).image as Basis;
          });
          this.asks(word, "was what? write was and a record");
        },
      },
    ]);
    return { was, basis };
  });

  protected recordTail = this.RULE(
    "recordTail",
    (from: number, was: boolean, basis: Basis): RecordClause => {
      let total = false;
      let figure: Expr | undefined;
      let spread: Expr | undefined;
      let on: Text | undefined;
      let by: Text | undefined;
      let rev: Text | undefined;
      let effective: Serials | undefined;
      const notes: Text[] = [];
      this.OPTION(() => {
        this.CONSUME(kw("total"));
        total = true;
      });
      this.OPTION1(() => {
        figure = this.SUBRULE(this.expr);
      });
      this.OPTION2(() => {
        const sign = this.CONSUME(t.PlusMinus);
        this.OPTION3(() => {
          spread = this.SUBRULE1(this.expr);
        });
        this.asks(sign, NO_SPREAD);
      });
      this.MANY(() =>
        this.OR([
          {
            ALT: () => {
              const word = this.CONSUME(kw("on"));
              this.OPTION4(() => {
                on = this.SUBRULE(this.date);
              });
              this.asks(word, "on which day? write it as 2026-09-19");
            },
          },
          {
            ALT: () => {
              const word = this.CONSUME(kw("by"));
              this.OPTION5(() => {
                by = this.SUBRULE(this.string);
              });
              this.asks(word, "by needs a text in quotes");
            },
          },
          {
            ALT: () => {
              const word = this.CONSUME(kw("rev"));
              this.OPTION6(() => {
                rev = this.SUBRULE1(this.string);
              });
              this.asks(word, "rev needs a text in quotes");
            },
          },
          {
            ALT: () => {
              this.CONSUME(kw("effective"));
              effective = this.SUBRULE(this.serials);
            },
          },
          {
            ALT: () => {
              const word = this.CONSUME(kw("note"));
              this.OPTION7(() => notes.push(this.SUBRULE2(this.string)));
              this.asks(word, "note needs a text in quotes");
            },
          },
        ]),
      );
      const { line } = this;
      const to = this.end(from);
      return {
        kind: "record",
        line,
        from,
        to,
        was,
        basis,
        total,
        figure,
        spread,
        on,
        by,
        rev,
        effective,
        notes,
      };
    },
  );

  clause = this.RULE(
    "clause",
    (): Clause =>
      this.OR<Clause>([
        { ALT: () => this.SUBRULE(this.record) },
        { ALT: () => this.SUBRULE(this.atClause) },
        { ALT: () => this.SUBRULE(this.valueClause) },
        { ALT: () => this.SUBRULE(this.textClause) },
        { ALT: () => this.SUBRULE(this.flag) },
        { ALT: () => this.SUBRULE(this.spanClause) },
        { ALT: () => this.SUBRULE(this.inertiaClause) },
        { ALT: () => this.SUBRULE(this.shapeClause) },
        { ALT: () => this.SUBRULE(this.ratesClause) },
        { ALT: () => this.SUBRULE(this.budgetClause) },
        { ALT: () => this.SUBRULE(this.limitsClause) },
        { ALT: () => this.SUBRULE(this.contentsClause) },
        { ALT: () => this.SUBRULE(this.swingClause) },
        { ALT: () => this.SUBRULE(this.aircraftClause) },
        { ALT: () => this.SUBRULE(this.effectiveClause) },
      ]),
  );

  atPoint = this.RULE("atPoint", (): Point => {
    const token = this.CONSUME(kw("at"));
    const end = this.ACTION(() => token.endOffset! + 1);
    let point: Point = { line: this.line, from: end, to: end, coords: [] };
    this.OPTION(() => {
      point = this.SUBRULE(this.point);
    });
    this.asks(token, NO_PLACE);
    return point;
  });

  protected atClause = this.RULE("atClause", (): Clause => {
    const from = this.start();
    const point = this.SUBRULE(this.atPoint);
    return { kind: "at", line: this.line, from, to: this.end(from), point };
  });

  /** A word and a figure. */
  protected valueClause = this.RULE("valueClause", (): Clause => {
    let total = false;
    const token = this.OR([
      { ALT: () => this.CONSUME(kw("qty")) },
      { ALT: () => this.CONSUME(kw("margin")) },
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
      text = this.SUBRULE(this.string);
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
        along = this.SUBRULE(this.axis);
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

  /** `cg FS 124 .. 136`; in an envelope `cg 1150 lb: 18 %MAC ..`, `lateral FS 97: BL -2 .. 2`. */
  protected limitsClause = this.RULE("limitsClause", (): Clause => {
    const token = this.OR([
      { ALT: () => this.CONSUME(kw("cg")) },
      { ALT: () => this.CONSUME(kw("lateral")) },
    ]);
    let key: ClauseOf<"cg">["key"];
    let axis: Axis | undefined;
    let low: Bound | undefined;
    let high: Bound | undefined;
    this.OPTION(() => {
      axis = this.SUBRULE(this.axis);
    });
    this.OPTION1(() => {
      low = this.SUBRULE(this.bound);
    });
    this.OPTION2(() => {
      this.CONSUME(t.Colon);
      const value = low?.value;
      key = value === undefined ? undefined : { axis, value };
      axis = undefined;
      low = undefined;
      this.OPTION3(() => {
        axis = this.SUBRULE1(this.axis);
      });
      this.OPTION4(() => {
        low = this.SUBRULE1(this.bound);
      });
    });
    this.OPTION5(() => {
      this.CONSUME(t.Range);
      this.OPTION6(() => {
        high = this.SUBRULE2(this.bound);
      });
    });
    return {
      kind: token.image as "cg",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      key,
      axis,
      low,
      high,
    };
  });

  protected bound = this.RULE("bound", (): Bound => {
    const from = this.start();
    const value = this.SUBRULE(this.expr);
    let ofMac = false;
    this.OPTION(() => {
      this.CONSUME(t.PercentMac);
      ofMac = true;
    });
    return { line: this.line, from, to: this.end(from), value, ofMac };
  });

  /** What a tank, seat or bay holds. */
  protected contentsClause = this.RULE("contentsClause", (): Clause => {
    let value: Expr | undefined;
    let high: Expr | undefined;
    let of: Word | undefined;
    let point: Point | undefined;
    const token = this.OR([
      {
        ALT: () => {
          const range = this.CONSUME(kw("range"));
          this.OPTION(() => {
            value = this.SUBRULE(this.expr);
          });
          this.OPTION1(() => {
            this.CONSUME(t.Range);
            this.OPTION2(() => {
              high = this.SUBRULE1(this.expr);
            });
          });
          return range;
        },
      },
      {
        ALT: () => {
          const holds = this.CONSUME(kw("holds"));
          this.OPTION3(() => {
            value = this.SUBRULE2(this.expr);
          });
          this.OPTION4(() => {
            this.CONSUME(kw("of"));
            this.OPTION5(() => {
              of = this.SUBRULE(this.word);
            });
          });
          return holds;
        },
      },
      {
        ALT: () => {
          const unusable = this.CONSUME(kw("unusable"));
          this.OPTION6(() => {
            value = this.SUBRULE3(this.expr);
          });
          this.OPTION7(() => {
            point = this.SUBRULE(this.atPoint);
          });
          return unusable;
        },
      },
      {
        ALT: () => {
          const filled = this.CONSUME(kw("filled"));
          this.OPTION8(() => {
            value = this.SUBRULE4(this.expr);
          });
          this.OPTION9(() => {
            point = this.SUBRULE(this.place);
          });
          return filled;
        },
      },
    ]);
    const span = this.since(token.startOffset);
    const to = this.ACTION(() => token.endOffset! + 1);
    if (token.image === "range") return { kind: "range", ...span, low: value, high };
    if (token.image === "holds") return { kind: "holds", ...span, value, of };
    if (token.image === "unusable") return { kind: "unusable", ...span, value, at: point };
    if (value && point === undefined) this.ACTION(() => this.stumble(token, NO_PLACE));
    const nowhere = { line: this.line, from: to, to, coords: [] };
    return { kind: "filled", ...span, value, point: point ?? nowhere };
  });

  /** The word `at` may be left out before a row's place. */
  protected place = this.RULE(
    "place",
    (): Point =>
      this.OR([{ ALT: () => this.SUBRULE(this.atPoint) }, { ALT: () => this.SUBRULE(this.point) }]),
  );

  protected swingClause = this.RULE("swingClause", (): Clause => {
    const token = this.CONSUME(kw("swing"));
    let angle: Expr | undefined;
    let toward: Toward | undefined;
    let axis: Axis | undefined;
    let at: Point | undefined;
    let ends: [Point, Point] | undefined;
    this.OPTION(() => {
      angle = this.SUBRULE(this.expr);
    });
    this.OPTION1(() => {
      toward = this.CONSUME(t.TowardWord).image as Toward;
    });
    this.OPTION2(() => {
      this.CONSUME(kw("about"));
      this.OPTION3(() =>
        this.OR([
          {
            ALT: () => {
              axis = this.SUBRULE(this.axis);
              this.OPTION4(() => {
                at = this.SUBRULE(this.atPoint);
              });
            },
          },
          {
            ALT: () => {
              const start = this.SUBRULE(this.pointInParens);
              this.OPTION5(() => {
                this.CONSUME(t.Range);
                this.OPTION6(() => {
                  ends = [start, this.SUBRULE1(this.pointInParens)];
                });
              });
            },
          },
        ]),
      );
    });
    return {
      kind: "swing",
      line: this.line,
      from: token.startOffset,
      to: this.end(token.startOffset),
      angle,
      toward,
      axis,
      at,
      ends,
    };
  });

  protected pointInParens = this.RULE("pointInParens", (): Point => {
    const open = this.CONSUME(t.LParen);
    const to = this.ACTION(() => open.endOffset! + 1);
    let point: Point = { line: this.line, from: to, to, coords: [] };
    this.OPTION(() => {
      point = this.SUBRULE(this.point);
    });
    this.asks(open, NO_PLACE);
    this.closeParen(
      open.startOffset,
      this.OPTION1(() => this.CONSUME(t.RParen)),
    );
    return point;
  });

  /** What only the aircraft itself says. */
  protected aircraftClause = this.RULE("aircraftClause", (): Clause => {
    let clause!: Clause;
    this.OR([
      {
        ALT: () => {
          const { startOffset } = this.CONSUME(kw("units"));
          const units: (Span & { unit: readonly UnitPower[] })[] = [];
          this.MANY_SEP({
            SEP: t.Comma,
            DEF: () => {
              const before = this.LA(0);
              const from = this.start();
              this.OPTION6(() => {
                const unit = this.SUBRULE(this.unit);
                units.push({ line: this.line, from, to: this.end(from), unit });
              });
              this.asksAfterComma(before);
            },
          });
          clause = { kind: "units", ...this.since(startOffset), units };
        },
      },
      {
        ALT: () => {
          const { startOffset } = this.CONSUME(kw("mac"));
          let at: Point | undefined;
          let length: Expr | undefined;
          this.OPTION(() => {
            at = this.SUBRULE(this.atPoint);
          });
          this.OPTION1(() => {
            this.CONSUME(kw("length"));
            this.OPTION2(() => {
              length = this.SUBRULE(this.expr);
            });
          });
          clause = { kind: "mac", ...this.since(startOffset), at, length };
        },
      },
      {
        ALT: () => {
          const token = this.CONSUME(kw("extent"));
          const to = this.ACTION(() => token.endOffset! + 1);
          let point: Point = { line: this.line, from: to, to, coords: [] };
          this.OPTION3(() => {
            point = this.SUBRULE1(this.point);
          });
          clause = {
            kind: "extent",
            line: this.line,
            from: token.startOffset,
            to: this.end(token.startOffset),
            point,
          };
        },
      },
    ]);
    return clause;
  });

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
