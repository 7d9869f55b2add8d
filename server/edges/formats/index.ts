import { concise, full } from "./full";
import { github } from "./github";
import { gitlab } from "./gitlab";
import { json } from "./json";
import { junit } from "./junit";
import { markdown } from "./markdown";
import { rdjson } from "./rdjson";
import type { Writer } from "./report";
import { sarif } from "./sarif";

export const formats = {
  full,
  concise,
  json,
  sarif,
  github,
  gitlab,
  junit,
  rdjson,
  markdown,
} as const satisfies Readonly<Record<string, Writer>>;

export type FormatName = keyof typeof formats;
export const formatNames = Object.keys(formats) as readonly FormatName[];
