import { MassClauses } from "./mass-clauses";
import { NO_PLACE } from "./records";
import * as t from "./tokens";
import type {
  Axis,
  Bound,
  Clause,
  ClauseOf,
  Expr,
  Point,
  Span,
  Toward,
  UnitPower,
  Word,
} from "./tree";

const kw = t.keyword;

/** What may stand behind a declaration's name, on its line or one a line in its block. */
export class Clauses extends MassClauses {
  clause = this.RULE(
    "clause",
    (): Clause =>
      this.ACTION(() => this.plainClause()) ??
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

  protected atClause = this.RULE("atClause", (): Clause => {
    const from = this.start();
    const point = this.SUBRULE(this.atPoint);
    return { kind: "at", line: this.line, from, to: this.end(from), point };
  });

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
      axis = this.CONSUME(t.AxisWord).image as Axis;
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
        axis = this.CONSUME1(t.AxisWord).image as Axis;
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
              of = this.textOf(this.CONSUME(t.Word));
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
              axis = this.CONSUME(t.AxisWord).image as Axis;
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
          const colon = this.OPTION7(() => this.CONSUME(t.Colon));
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
          if (colon)
            this.ACTION(() => {
              const { text } = this.line;
              const said = units.map(it => text.slice(it.from, it.to)).join(", ");
              this.stumble(colon, `leave the colon out: units ${said || "kg, mm, L"}`);
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
}
