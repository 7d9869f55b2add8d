/** Draws what changes often: only while it can be seen, and not more often than a reader follows. */
export interface Drawing {
  /** What is drawn may be out of date. */
  changed(): void;
  /** It came into sight, or went. */
  seen(visible: boolean): void;
  /** Draws now. */
  draw(): void;
  stop(): void;
}

/**
 * What is new when it first comes into sight need not be drawn again.
 * @param pause milliseconds between two drawings
 */
export function whenSeen(draw: () => void, pause: number, visible: boolean): Drawing {
  let inSight = visible;
  let stale = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const drawn = () => {
    clearTimeout(timer);
    timer = undefined;
    stale = false;
    draw();
  };
  return {
    changed() {
      stale = true;
      if (inSight) timer ??= setTimeout(drawn, pause);
    },
    seen(now) {
      inSight = now;
      if (!now) {
        clearTimeout(timer);
        timer = undefined;
      } else if (stale) drawn();
    },
    draw: drawn,
    stop: () => clearTimeout(timer),
  };
}
