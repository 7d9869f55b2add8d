import { Expressions } from "./expressions";
import * as t from "./tokens";
import type { Axis, Basis, Coord, Expr, Point, RecordClause, Serials, Text } from "./tree";

const kw = t.keyword;
export const NO_SPREAD = "± how much? write a figure or a percentage";
export const NO_PLACE = "where? write FS and a station, BL and WL if known";

/** Places, serial numbers, and records of a mass: what clauses and statements are made of. */
export class Records extends Expressions {
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
    const axis = this.CONSUME(t.AxisWord).image as Axis;
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
                on = this.textOf(this.CONSUME(t.DateText));
              });
              this.asks(word, "on which day? write it as 2026-09-19");
            },
          },
          {
            ALT: () => {
              const word = this.CONSUME(kw("by"));
              this.OPTION5(() => {
                by = this.textOf(this.CONSUME(t.Str));
              });
              this.asks(word, "by needs a text in quotes");
            },
          },
          {
            ALT: () => {
              const word = this.CONSUME(kw("rev"));
              this.OPTION6(() => {
                rev = this.textOf(this.CONSUME1(t.Str));
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
              this.OPTION7(() => notes.push(this.textOf(this.CONSUME2(t.Str))));
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
}
