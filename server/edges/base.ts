import type { Base } from "../features/change-hints";

/** What a workspace is compared with, as far as it is known now. */
export interface BaseHolder {
  readonly now: () => Base | undefined;
  readonly stop: () => void;
}

/** @param changed is told when it is another one */
export type BaseFor = (folders: readonly string[], name: string, changed: () => void) => BaseHolder;
