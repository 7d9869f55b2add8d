import { describe, expect, test } from "vitest";
import { checks } from "../../server/checks";
import { check, checkChange } from "../fixture";

describe("the example on a check's page is true", () => {
  for (const { code, before, example } of checks)
    test(code, () => {
      // a fragment without an aircraft shows its finding as a part of one would
      const whole = example.includes("aircraft ") || code === "no-root";
      const around = (text: string) => `aircraft kite { units lb, in, gal }${text}`;
      if (before !== undefined) checkChange(around(before), around(example));
      else check(whole ? example.trimStart() : around(example));
    });
});

test("every code has a page of its own: a sentence and an example that shows it", () => {
  for (const { code, explain, example } of checks) {
    expect(explain.length).toBeGreaterThan(40);
    expect(example).toContain(`[${code}]`);
  }
  expect(new Set(checks.map(({ code }) => code)).size).toBe(checks.length);
});
