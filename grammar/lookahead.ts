import { type ILookaheadStrategy, LLkLookaheadStrategy } from "chevrotain";

/** With more, the parser's tables grow beyond what an editor waits for at its start. */
export const AHEAD = 1;

/**
 * Chevrotain's own way of looking ahead, made where it is first needed: a file uses few of the rules, and
 * to make it for all of them takes as long as to read 1,000 lines.
 */
export function lazyLookahead(): ILookaheadStrategy {
  const strategy = new LLkLookaheadStrategy({ maxLookahead: AHEAD });
  return {
    validate: options => strategy.validate(options),
    buildLookaheadForAlternation: options => {
      let made: ReturnType<ILookaheadStrategy["buildLookaheadForAlternation"]> | undefined;
      return function (this: unknown, alternatives) {
        made ??= strategy.buildLookaheadForAlternation(options);
        return made.call(this, alternatives);
      };
    },
    buildLookaheadForOptional: options => {
      let made: ReturnType<ILookaheadStrategy["buildLookaheadForOptional"]> | undefined;
      return function (this: unknown) {
        made ??= strategy.buildLookaheadForOptional(options);
        return made.call(this);
      };
    },
  };
}
