import { type IToken, type TokenType, tokenMatcher } from "chevrotain";
import { alone, Plain, plainUnit } from "./plain";
import * as t from "./tokens";
import type { Expr, Fault, Measure, Path, Span, UnitPower, Word } from "./tree";

const percent: readonly UnitPower[] = [{ name: "%", power: 1 }];

/** Deeper than any engineer nests parentheses, far from the end of the machine's stack. */
export const DEEPEST = 64;

const NO_NAME = "a name is missing after this dot";
const NO_OPERAND = "nothing stands after this sign";

/**
 * Names, quantities, expressions. Every rule is loose: what may be missing is optional here and asked
 * for by the checker, so that a half-typed line keeps all that stands on it.
 */
export class Expressions extends Plain {
  protected depth = 0;
  /** What is missing on the way, where the tree can go on without it. */
  stumbles: Fault[] = [];

  /** Where what comes next begins; at the end of the line's tokens, where the last one ends. */
  protected start(): number {
    const { startOffset } = this.LA(1);
    return Number.isNaN(startOffset) ? this.end(0) : startOffset;
  }

  protected since(from: number): Span {
    return { line: this.line, from, to: this.end(from) };
  }

  protected is(k: number, type: TokenType): boolean {
    return tokenMatcher(this.LA(k), type);
  }

  protected stumble(at: IToken | Span, message: string): void {
    this.stumbles.push({ at: "startOffset" in at ? this.spanOf(at) : at, message });
  }

  /** What a word or a sign asks for may not be typed yet: says so, and the tree goes on without. */
  protected asks(token: IToken, message: string): void {
    this.ACTION(() => {
      if (this.LA(0) === token) this.stumble(token, message);
    });
  }

  /** A figure that cannot follow is a fault of its own: most likely a decimal comma. */
  protected asksAfterComma(token: IToken): void {
    if (token.tokenType === t.Comma && !this.is(1, t.Num))
      this.asks(token, "nothing follows this comma");
  }

  protected closeParen(open: number, close: IToken | undefined): void {
    if (close === undefined)
      this.ACTION(() => {
        const at = { line: this.line, from: open, to: open + 1 };
        this.stumble(at, "this parenthesis is not closed");
      });
  }

  path = this.RULE("path", (): Path => {
    const from = this.start();
    const first = this.textOf(this.CONSUME(t.Word));
    const words = [first];
    let text = this.ACTION(() => first.text);
    this.MANY(() => {
      const dot = this.CONSUME(t.Dot);
      this.OPTION(() => {
        const word = this.textOf(this.CONSUME1(t.Word));
        words.push(word);
        this.ACTION(() => {
          text += `.${word.text}`;
        });
      });
      this.asks(dot, NO_NAME);
    });
    const { to } = this.since(from);
    return { line: this.line, from, to, words, text };
  });

  paths = this.RULE("paths", (): Path[] => {
    const found = [this.SUBRULE(this.path)];
    this.MANY(() => {
      const comma = this.CONSUME(t.Comma);
      this.OPTION(() => found.push(this.SUBRULE1(this.path)));
      this.asksAfterComma(comma);
    });
    return found;
  });

  /** Sums and products are read flat and folded by precedence: two rules an operand, not five. */
  expr: (idx?: number) => Expr = this.RULE("expr", (): Expr => {
    const plain = this.ACTION(() => this.plainQuantity());
    if (plain) return plain;
    const from = this.start();
    const operands: Expr[] = [this.SUBRULE(this.operand)];
    const operators: IToken[] = [];
    this.MANY(() => {
      this.OR([
        { ALT: () => operators.push(this.CONSUME(t.Sign)) },
        { ALT: () => operators.push(this.CONSUME(t.Times)) },
      ]);
      this.OPTION(() => operands.push(this.SUBRULE1(this.operand)));
      this.ACTION(() => {
        if (operands.length === operators.length) {
          const { to } = this.since(from);
          operands.push({ kind: "missing", line: this.line, from: to, to });
          this.stumble(operators.at(-1)!, NO_OPERAND);
        }
      });
    });
    return operators.length === 0
      ? operands[0]!
      : this.ACTION(() => this.fold(operands, operators));
  });

  protected operand: (idx?: number) => Expr = this.RULE("operand", (): Expr => {
    const from = this.start();
    let negative = false;
    let value: Expr = { kind: "missing", line: this.line, from, to: from };
    this.OR([
      {
        ALT: () => {
          this.AT_LEAST_ONE(() => {
            const sign = this.CONSUME(t.Sign);
            negative = negative !== (sign.image === "-");
          });
          this.OPTION(() => {
            value = this.SUBRULE(this.primary);
          });
          if (value.kind === "missing")
            this.ACTION(() => this.stumble(this.since(from), NO_OPERAND));
        },
      },
      {
        ALT: () => {
          value = this.SUBRULE1(this.primary);
        },
      },
    ]);
    this.OPTION1(() => {
      const sign = this.CONSUME(t.Power);
      let minus: IToken | undefined;
      this.OPTION2(() => {
        minus = this.CONSUME1(t.Sign);
      });
      let exponent: Expr = { kind: "missing", line: this.line, from, to: from };
      this.OPTION3(() => {
        exponent = this.SUBRULE2(this.primary);
      });
      this.asks(minus ?? sign, NO_OPERAND);
      this.ACTION(() => {
        if (minus?.image === "-")
          exponent = { ...this.join(minus, exponent), kind: "negative", of: exponent };
        value = this.binary(sign, value, exponent);
      });
    });
    if (negative)
      value = { kind: "negative", line: this.line, from, to: this.end(from), of: value };
    return value;
  });

  protected primary: (idx?: number) => Expr = this.RULE(
    "primary",
    (): Expr =>
      this.OR<Expr>([
        { ALT: () => this.SUBRULE(this.quantity) },
        { ALT: () => this.SUBRULE(this.name) },
        { GATE: () => this.depth < DEEPEST, ALT: () => this.SUBRULE(this.call) },
        { GATE: () => this.depth < DEEPEST, ALT: () => this.SUBRULE(this.group) },
      ]),
  );

  protected group = this.RULE("group", (): Expr => {
    const from = this.CONSUME(t.LParen).startOffset;
    let value: Expr = { kind: "missing", line: this.line, from: from + 1, to: from + 1 };
    this.depth++;
    this.OPTION(() => {
      value = this.SUBRULE(this.expr);
    });
    this.depth--;
    this.closeParen(
      from,
      this.OPTION1(() => this.CONSUME(t.RParen)),
    );
    return { ...value, from, to: this.end(from) };
  });

  protected name = this.RULE("name", (): Expr => {
    const from = this.start();
    const words: Word[] = [];
    this.OR([
      { ALT: () => words.push(this.textOf(this.CONSUME(t.Ident))) },
      { ALT: () => words.push(this.textOf(this.CONSUME(t.Unit))) },
    ]);
    this.MANY(() => {
      const dot = this.CONSUME(t.Dot);
      this.OPTION(() => words.push(this.textOf(this.CONSUME(t.Word))));
      this.asks(dot, NO_NAME);
    });
    const span = this.since(from);
    const text = this.ACTION(() => words.map(word => word.text).join("."));
    return { kind: "name", ...span, path: { ...span, words, text } };
  });

  protected call = this.RULE("call", (): Expr => {
    const from = this.start();
    const name = this.textOf(this.CONSUME(t.Call));
    const args: Expr[] = [];
    const open = this.CONSUME(t.LParen).startOffset;
    this.depth++;
    this.MANY_SEP({
      SEP: t.Comma,
      DEF: () => {
        const before = this.LA(0);
        this.OPTION(() =>
          this.OR([
            { ALT: () => args.push(this.SUBRULE(this.expr)) },
            {
              // a place may be called like a keyword: fs(loading.takeoff)
              ALT: () => {
                const path = this.SUBRULE(this.keywordPath);
                args.push({ kind: "name", line: path.line, from: path.from, to: path.to, path });
              },
            },
          ]),
        );
        this.asksAfterComma(before);
      },
    });
    this.depth--;
    this.closeParen(
      open,
      this.OPTION1(() => this.CONSUME(t.RParen)),
    );
    return { kind: "call", line: this.line, from, to: this.end(from), name, args };
  });

  protected keywordPath = this.RULE("keywordPath", (): Path => {
    const from = this.start();
    const words = [this.textOf(this.CONSUME(t.Keyword))];
    this.MANY(() => {
      const dot = this.CONSUME(t.Dot);
      this.OPTION(() => words.push(this.textOf(this.CONSUME(t.Word))));
      this.asks(dot, NO_NAME);
    });
    return {
      line: this.line,
      from,
      to: this.end(from),
      words,
      text: this.ACTION(() => words.map(w => w.text).join(".")),
    };
  });

  quantity = this.RULE("quantity", (): Expr => {
    const from = this.start();
    const measures: Measure[] = [];
    this.AT_LEAST_ONE(() => measures.push(this.SUBRULE(this.measure)));
    return {
      kind: "quantity",
      line: this.line,
      from,
      to: this.end(from),
      measures: measures as [Measure, ...Measure[]],
    };
  });

  /** One number and its unit. `3/8 in` and `3 1/2 in` are numbers; `3/8` alone is a division. */
  protected measure = this.RULE("measure", (): Measure => {
    const from = this.start();
    const first = this.CONSUME(t.Num);
    let value = Number(first.image);
    this.OPTION({
      GATE: () =>
        this.LA(1).image === "/" &&
        this.is(2, t.Num) &&
        (this.is(3, t.Unit) || this.is(3, t.Ident)),
      DEF: () => {
        this.CONSUME(t.Times);
        value /= Number(this.CONSUME1(t.Num).image);
      },
    });
    this.OPTION1({
      GATE: () => this.LA(2).image === "/" && this.is(3, t.Num),
      DEF: () => {
        const over = Number(this.CONSUME2(t.Num).image);
        this.CONSUME1(t.Times);
        value += over / Number(this.CONSUME3(t.Num).image);
      },
    });
    let unit: readonly UnitPower[] = [];
    const start = this.start();
    this.OPTION2(() => {
      unit = this.OR([
        {
          ALT: () => {
            this.CONSUME(t.Percent);
            return percent;
          },
        },
        { ALT: () => this.SUBRULE(this.unit) },
      ]);
    });
    const unitAt = unit.length === 0 ? undefined : this.since(start);
    return { line: this.line, from, to: this.end(from), value, unit, unitAt };
  });

  /** `lb`, `lb/ft^2`, `kg m^2`. A `/` or `*` belongs to it only when a unit follows. */
  unit = this.RULE("unit", (): readonly UnitPower[] => {
    const first = this.SUBRULE(this.unitPower);
    let powers: UnitPower[] | undefined;
    this.MANY({
      GATE: () => this.is(1, t.Unit) || this.is(2, t.Unit),
      DEF: () => {
        let over = false;
        this.OPTION(() => {
          over = this.CONSUME(t.Times).image === "/";
        });
        const { name, power } = this.SUBRULE1(this.unitPower);
        powers ??= [first];
        powers.push({ name, power: over ? -power : power });
      },
    });
    return powers ?? this.ACTION(() => alone(first));
  });

  protected unitPower = this.RULE("unitPower", (): UnitPower => {
    const name = this.OR([
      { ALT: () => this.CONSUME(t.Unit).image },
      { ALT: () => this.CONSUME(t.Ident).image },
    ]);
    let power = 1;
    this.OPTION({
      GATE: () => this.is(2, t.Num) || (this.LA(2).image === "-" && this.is(3, t.Num)),
      DEF: () => {
        this.CONSUME(t.Power);
        let sign = 1;
        this.OPTION1(() => {
          this.CONSUME(t.Sign);
          sign = -1;
        });
        power = sign * Number(this.CONSUME(t.Num).image);
      },
    });
    return power === 1 ? this.ACTION(() => plainUnit(name)) : { name, power };
  });

  /** Products before sums, from the left; an operand that is missing stays in its place. */
  private fold(operands: readonly Expr[], operators: readonly IToken[]): Expr {
    let sum: Expr | undefined;
    let pending: IToken | undefined;
    let product = operands[0]!;
    operators.forEach((operator, i) => {
      const right = operands[i + 1]!;
      if (operator.tokenType === t.Times) {
        product = this.binary(operator, product, right);
        return;
      }
      sum = sum && pending ? this.binary(pending, sum, product) : product;
      pending = operator;
      product = right;
    });
    return sum && pending ? this.binary(pending, sum, product) : product;
  }

  private binary(operator: IToken, left: Expr, right: Expr): Expr {
    return {
      kind: "binary",
      line: this.line,
      from: left.from,
      to: Math.max(right.to, operator.endOffset! + 1),
      operator: operator.image as "+" | "-" | "*" | "/" | "^",
      operatorAt: this.spanOf(operator),
      left,
      right,
    };
  }

  private join(from: IToken, to: Span): Span {
    return { line: this.line, from: from.startOffset, to: to.to };
  }
}
