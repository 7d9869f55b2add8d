import { InputBoxValidationSeverity, l10n, type Memento, QuickPickItemKind, window } from "vscode";
import { applied, type Edits } from "./edits";

/** Asks the language server; undefined: it is not running. */
type Ask = <Answer>(method: string, params: object) => Promise<Answer | undefined>;

interface Shop {
  readonly title: string;
  readonly unit: string;
  readonly airframes: readonly { readonly name: string; readonly title: string }[];
  readonly parts: readonly Part[];
}
interface Part {
  readonly path: string;
  readonly title: string;
  readonly pn: string;
  readonly thought: string;
  readonly pieces: number;
  readonly weighed: boolean;
  /** An assembly, as a whole. */
  readonly whole: boolean;
}
interface Reading {
  readonly said: string;
  readonly severity: "information" | "warning" | "error";
  readonly edit: Edits | null;
}
/** Takes readings part by part until Escape: which airframe, which scale, then part and reading in turn. */
export function weighing(ask: Ask, memory: Memento): () => Promise<void> {
  return async () => {
    const uri = window.activeTextEditor?.document.uri.toString();
    const design = uri && (await ask<Shop | null>("poise/shop", { uri }));
    if (!design) {
      void window.showInformationMessage(
        l10n.t("Place the cursor in a file of an aircraft first."),
      );
      return;
    }
    const airframe = await airframeOf(design);
    if (airframe === undefined) return;
    const which = airframe === "" ? { uri } : { uri, airframe };
    const by = await scaleOf(memory);
    if (by === undefined) return;
    for (let last = ""; ; ) {
      const shop = await ask<Shop | null>("poise/shop", which);
      const part = shop ? await partOf(shop, last) : undefined;
      if (!shop || part === undefined) return;
      const reading = await readingOf(part, shop.unit, figure =>
        ask<Reading | null>("poise/reading", { ...which, path: part.path, figure, by }),
      );
      if (reading?.edit && (await applied(reading.edit))) last = `${part.path}: ${reading.said}`;
    }
  };
}

/** Empty: the aircraft as designed. */
async function airframeOf({ airframes }: Shop): Promise<string | undefined> {
  if (airframes.length === 0) return "";
  const all = [
    { label: l10n.t("As designed"), description: l10n.t("the record is of every one"), name: "" },
    ...airframes.map(({ name, title }) => ({ label: title, description: name, name })),
  ];
  const picked = await window.showQuickPick(all, { placeHolder: l10n.t("What is on the scale?") });
  return picked?.name;
}

const LAST_SCALE = "poise.weigh.scale";

async function scaleOf(memory: Memento): Promise<string | undefined> {
  const by = await window.showInputBox({
    prompt: l10n.t("Which scale? Its name stands in the record; empty: none does."),
    placeHolder: "bench scale 2",
    value: memory.get(LAST_SCALE, ""),
    ignoreFocusOut: true,
  });
  if (by !== undefined) await memory.update(LAST_SCALE, by);
  return by;
}

/** @param last what was written before, to be read while the next part is picked */
async function partOf({ parts }: Shop, last: string): Promise<Part | undefined> {
  const itemOf = (part: Part) => ({
    label: part.path,
    description: [part.thought, part.title, part.pn].filter(it => it !== "").join(" · "),
    part,
  });
  const section = (label: string, some: readonly Part[]) =>
    some.length === 0
      ? []
      : [
          { label, kind: QuickPickItemKind.Separator, part: undefined },
          ...some.map(it => ({ ...itemOf(it), kind: QuickPickItemKind.Default })),
        ];
  const picked = await window.showQuickPick(
    [
      ...section(
        l10n.t("not weighed yet, the heaviest first"),
        parts.filter(it => !it.weighed && !it.whole),
      ),
      ...section(
        l10n.t("assemblies, each as a whole"),
        parts.filter(it => !it.weighed && it.whole),
      ),
      ...section(
        l10n.t("weighed"),
        parts.filter(it => it.weighed),
      ),
    ],
    {
      title: last === "" ? l10n.t("Which part?") : l10n.t("Written. {0}", last),
      placeHolder: l10n.t("Which part? Type a piece of its path, title or part number"),
      matchOnDescription: true,
      ignoreFocusOut: true,
    },
  );
  return picked?.part;
}

/** What a reading comes to is shown while it is typed; what looks like a slip may still be entered. */
async function readingOf(
  { path, thought, pieces }: Part,
  unit: string,
  ask: (figure: string) => Promise<Reading | null | undefined>,
): Promise<Reading | undefined> {
  const prompt =
    pieces > 1
      ? l10n.t(
          "{0}. Reading in {1}, of one of {2} pieces (or total …); other units as 4 lb 1 oz or 1.84 kg",
          thought,
          unit,
          pieces,
        )
      : l10n.t("{0}. Reading in {1}; other units as 4 lb 1 oz or 1.84 kg", thought, unit);
  const figure = await window.showInputBox({
    title: path,
    prompt,
    ignoreFocusOut: true,
    validateInput: async text => {
      if (text.trim() === "") return undefined;
      const reading = await ask(text);
      return reading && { message: reading.said, severity: severities[reading.severity] };
    },
  });
  return figure === undefined || figure.trim() === ""
    ? undefined
    : ((await ask(figure)) ?? undefined);
}

const severities = {
  information: InputBoxValidationSeverity.Info,
  warning: InputBoxValidationSeverity.Warning,
  error: InputBoxValidationSeverity.Error,
} as const;
