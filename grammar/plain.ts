import { EmbeddedActionsParser, type IToken, type TokenType } from "chevrotain";
import { AHEAD, lazyLookahead } from "./lookahead";
import * as t from "./tokens";
import type { Axis, Basis, Clause, Coord, Expr, Line, Span, Text, UnitPower } from "./tree";

/**
 * What stands on nearly every line, read without the twenty rules it would go through: a figure alone,
 * `calculated 12 lb on 2026-09-19`, `at FS 12, BL 3`. Anything less plain is left to the rules, and a
 * test holds the two to the same tree.
 */
export class Plain extends EmbeddedActionsParser {
  /** The line being read; every node is a span of it. */
  protected line!: Line;
  /** Off: all goes through the rules. */
  shortcuts = true;

  /** @param validated throws where the rules contradict each other: for a test, it costs more than parsing */
  constructor(validated: boolean) {
    super([...t.allTokens], {
      maxLookahead: AHEAD,
      lookaheadStrategy: lazyLookahead(),
      recoveryEnabled: false,
      nodeLocationTracking: "none",
      skipValidations: !validated,
    });
  }

  /** Where what was read last ends. */
  protected end(from: number): number {
    return Math.max(from, (this.LA(0).endOffset ?? from - 1) + 1);
  }

  protected spanOf(token: IToken): Span {
    return { line: this.line, from: token.startOffset, to: token.endOffset! + 1 };
  }

  protected textOf(token: IToken): Text {
    const { line } = this;
    return { line, from: token.startOffset, to: token.endOffset! + 1, text: token.image };
  }

  protected plainQuantity(): Expr | undefined {
    const end = this.shortcuts ? this.figureEnd(1) : 0;
    return end === 0 || goesOn.has(this.LA(end).tokenType) ? undefined : this.takeFigure();
  }

  protected plainClause(): Clause | undefined {
    if (!this.shortcuts) return undefined;
    const { tokenType } = this.LA(1);
    if (tokenType === t.Basis) return this.plainRecord();
    return tokenType === at ? this.plainPlace() : undefined;
  }

  private plainRecord(): Clause | undefined {
    let end = this.figureEnd(2);
    if (end === 0) return undefined;
    const dated = this.LA(end).tokenType === on && this.LA(end + 1).tokenType === t.DateText;
    if (dated) end += 2;
    if (recordGoesOn.has(this.LA(end).tokenType)) return undefined;
    const basis = this.take();
    const figure = this.takeFigure();
    if (dated) this.SKIP_TOKEN();
    const date = dated ? this.textOf(this.take()) : undefined;
    const { line } = this;
    const from = basis.startOffset;
    return {
      kind: "record",
      line,
      from,
      to: this.end(from),
      was: false,
      basis: basis.image as Basis,
      total: false,
      figure,
      spread: undefined,
      on: date,
      by: undefined,
      rev: undefined,
      effective: undefined,
      notes: [],
    };
  }

  private plainPlace(): Clause | undefined {
    let end = 1;
    do {
      end = this.LA(end + 1).tokenType === t.AxisWord ? this.figureEnd(end + 2) : 0;
      if (end === 0) return undefined;
    } while (this.LA(end).tokenType === t.Comma);
    if (goesOn.has(this.LA(end).tokenType) || this.LA(end).tokenType === t.Range) return undefined;
    const { line } = this;
    const word = this.take();
    const coords = [this.takeCoord()];
    while (this.LA(1).tokenType === t.Comma) {
      this.SKIP_TOKEN();
      coords.push(this.takeCoord());
    }
    const to = this.end(0);
    const point = { line, from: coords[0]!.from, to, coords };
    return { kind: "at", line, from: word.startOffset, to, point };
  }

  private takeCoord(): Coord {
    const axis = this.take();
    const value = this.takeFigure();
    const from = axis.startOffset;
    const to = this.end(from);
    return { line: this.line, from, to, axis: axis.image as Axis, value, upTo: undefined };
  }

  /** How far ahead a number and its unit end; 0 where none stands. */
  private figureEnd(ahead: number): number {
    if (this.LA(ahead).tokenType !== t.Num) return 0;
    return this.LA(ahead + 1).tokenType === t.Unit ? ahead + 2 : ahead + 1;
  }

  private takeFigure(): Expr {
    const { line } = this;
    const number = this.take();
    const from = number.startOffset;
    const value = Number(number.image);
    let unit = unitless;
    let unitAt: Span | undefined;
    if (this.LA(1).tokenType === t.Unit) {
      const name = this.take();
      unit = alone(plainUnit(name.image));
      unitAt = this.spanOf(name);
    }
    const to = this.end(from);
    const measure = { line, from, to, value, unit, unitAt };
    return { kind: "quantity", line, from, to, measures: [measure] };
  }

  private take(): IToken {
    const token = this.LA(1);
    this.SKIP_TOKEN();
    return token;
  }
}

const at = t.keyword("at");
const on = t.keyword("on");
const unitless: readonly UnitPower[] = [];

/** What makes more of a figure than a number and its unit. */
const goesOn = new Set<TokenType>([
  ...[t.Num, t.Unit, t.Ident, t.Percent, t.Sign, t.Times, t.Power],
]);
const recordGoesOn = new Set<TokenType>([
  ...[...goesOn, t.PlusMinus],
  ...["on", "by", "rev", "effective", "note"].map(t.keyword),
]);

/** A file names the same few units thousands of times: one object each. */
export function plainUnit(name: string): UnitPower {
  let unit = plainUnits.get(name);
  if (unit === undefined) {
    unit = { name, power: 1 };
    plainUnits.set(name, unit);
  }
  return unit;
}
const plainUnits = new Map<string, UnitPower>();

/** One list each, too. */
export function alone(unit: UnitPower): readonly UnitPower[] {
  let list = units.get(unit);
  if (list === undefined) {
    list = [unit];
    units.set(unit, list);
  }
  return list;
}
const units = new WeakMap<UnitPower, readonly UnitPower[]>();
