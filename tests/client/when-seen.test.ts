import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { whenSeen } from "../../client/when-seen";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

test("while nobody sees it nothing is drawn, however much changes; then once", () => {
  const draw = vi.fn();
  const it = whenSeen(draw, 250, false);
  for (let i = 0; i < 100; i++) it.changed();
  vi.advanceTimersByTime(10_000);
  expect(draw).not.toHaveBeenCalled();
  it.seen(true);
  expect(draw).toHaveBeenCalledTimes(1);
  it.seen(false);
  it.seen(true);
  expect(draw).toHaveBeenCalledTimes(1);
});

test("while somebody types, four times a second and once at the end", () => {
  const draw = vi.fn();
  const it = whenSeen(draw, 250, true);
  for (let key = 0; key < 20; key++) {
    it.changed();
    vi.advanceTimersByTime(50);
  }
  expect(draw).toHaveBeenCalledTimes(4);
  it.changed();
  vi.advanceTimersByTime(1_000);
  expect(draw).toHaveBeenCalledTimes(5);
});

test("what was about to be drawn when it went out of sight is drawn when it comes back", () => {
  const draw = vi.fn();
  const it = whenSeen(draw, 250, true);
  it.changed();
  it.seen(false);
  vi.advanceTimersByTime(1_000);
  expect(draw).not.toHaveBeenCalled();
  it.seen(true);
  expect(draw).toHaveBeenCalledTimes(1);
});
