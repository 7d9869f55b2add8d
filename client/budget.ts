import {
  commands,
  type Disposable,
  Disposable as Disposables,
  EventEmitter,
  l10n,
  MarkdownString,
  type QuickPickItem,
  Range,
  type TextEditor,
  ThemeColor,
  ThemeIcon,
  TreeItem,
  TreeItemCollapsibleState,
  Uri,
  window,
} from "vscode";
import { type Node, nodeAt, nodesOf, type Placed } from "./budget-nodes";
import { type Entry, moreText, rowText } from "./budget-text";
import { whenSeen } from "./when-seen";

/** Asks the language server; undefined: it does not run. */
type Ask = <Answer>(method: string, params: object) => Promise<Answer | undefined>;

interface Answer {
  readonly roots: readonly {
    readonly key: string;
    readonly title: string;
    readonly airframe: string | null;
    readonly emptyWeight: string;
  }[];
  readonly shown: string | null;
  readonly tree: (Entry & Placed) | null;
}

export interface BudgetView extends Disposable {
  /** What it shows may have changed. */
  refresh(): void;
}

/**
 * The weight budget of one aircraft as a tree. It asks only while somebody can see it, and not more often
 * than a reader follows; it goes where the cursor is, and the cursor where a row is selected.
 */
export function budgetView(ask: Ask): BudgetView {
  const changed = new EventEmitter<Node | undefined>();
  let order = "mass";
  let chosen: string | undefined;
  let answer: Answer | undefined;
  let top: Node | undefined;

  const load = async () => {
    const uri = poiseIn(window.activeTextEditor)?.document.uri.toString();
    const question = { order, ...(chosen && { root: chosen }), ...(uri && { uri }) };
    answer = await ask<Answer>("poise/budget", question);
    top = answer?.tree ? nodesOf(answer.tree, answer.shown ?? "") : undefined;
    const root = answer?.roots.find(it => it.key === answer?.shown);
    const said = [root?.title, root?.airframe, root?.emptyWeight];
    view.description = said.filter(Boolean).join(" · ");
  };
  const view = window.createTreeView<Node>("poise.budget", {
    showCollapseAll: true,
    treeDataProvider: {
      onDidChangeTreeData: changed.event,
      getChildren: async node => {
        if (node) return [...node.inside];
        await load();
        return top ? [top] : [];
      },
      getParent: node => node.outer,
      getTreeItem: node => itemOf(node, order),
      resolveTreeItem: async (item, node) => {
        const told = await ask<{ contents: { value: string } } | null>("textDocument/hover", {
          textDocument: { uri: node.entry.uri },
          position: node.entry.range.start,
        });
        if (told) item.tooltip = new MarkdownString(told.contents.value);
        return item;
      },
    },
  });
  const drawing = whenSeen(() => changed.fire(undefined), READER_FOLLOWS, view.visible);
  const follow = (editor: TextEditor | undefined) => {
    const at = poiseIn(editor);
    if (!view.visible || !at || !top) return;
    const uri = at.document.uri.toString();
    const node = nodeAt(top, uri, at.selection.active, view.selection[0]);
    if (node && node !== view.selection[0])
      void view.reveal(node, { select: true, focus: false }).then(undefined, () => {});
  };

  const followSoon = (editor: TextEditor | undefined) => {
    clearTimeout(following);
    following = setTimeout(() => follow(editor), CURSOR_RESTS);
  };
  let following: ReturnType<typeof setTimeout> | undefined;
  const own = Disposables.from(
    changed,
    view,
    decorations(),
    view.onDidChangeVisibility(({ visible }) => {
      drawing.seen(visible);
      followSoon(window.activeTextEditor);
    }),
    window.onDidChangeActiveTextEditor(editor => {
      if (poiseIn(editor) && chosen === undefined) drawing.changed();
      followSoon(editor);
    }),
    window.onDidChangeTextEditorSelection(({ textEditor }) => followSoon(textEditor)),
    commands.registerCommand("poise.budget.root", async () => {
      const now = await ask<Answer>("poise/budget", { order });
      const roots = (now?.roots ?? []).map(it => ({
        label: it.airframe ? `${it.title}, ${it.airframe}` : it.title,
        description: it.emptyWeight,
        detail: it.airframe ? l10n.t("airframe") : l10n.t("as designed"),
        key: it.key,
      }));
      const follows = { label: l10n.t("Follow the Active File"), key: undefined };
      const picked = await window.showQuickPick<QuickPickItem & { key: string | undefined }>(
        [follows, ...roots],
        { title: l10n.t("Weight budget of which aircraft?"), matchOnDescription: true },
      );
      if (picked === undefined) return;
      chosen = picked.key;
      drawing.draw();
    }),
    commands.registerCommand("poise.budget.order", async () => {
      const orders = [
        { label: l10n.t("Heaviest First"), order: "mass" },
        { label: l10n.t("Least Margin First"), order: "margin" },
        { label: l10n.t("Most Uncertain First"), order: "spread" },
        { label: l10n.t("As Written"), order: "written" },
      ];
      const picked = await window.showQuickPick(
        orders.map(it => ({ ...it, description: it.order === order ? l10n.t("now") : "" })),
        { title: l10n.t("Order of the weight budget") },
      );
      if (picked === undefined) return;
      order = picked.order;
      drawing.draw();
    }),
  );
  return {
    refresh: drawing.changed,
    dispose: () => {
      drawing.stop();
      clearTimeout(following);
      own.dispose();
    },
  };
}

/** Milliseconds between two pictures of the tree while somebody types. */
const READER_FOLLOWS = 250;
/** Milliseconds until a cursor has come to where it goes. */
const CURSOR_RESTS = 150;

function itemOf(node: Node, order: string): TreeItem {
  const { entry, inside } = node;
  if (node.more) {
    const item = new TreeItem(moreText(node.more, l10n.t));
    item.id = node.id;
    return item;
  }
  const { label, description, spoken, tone } = rowText(entry, order, l10n.t);
  const open =
    entry.kind === "aircraft"
      ? TreeItemCollapsibleState.Expanded
      : TreeItemCollapsibleState.Collapsed;
  const item = new TreeItem(label, inside.length > 0 ? open : TreeItemCollapsibleState.None);
  const { start, end } = entry.range;
  const selection = new Range(start.line, start.character, end.line, end.character);
  item.id = node.id;
  item.description = description;
  item.accessibilityInformation = { label: spoken };
  item.iconPath = iconOf(entry, tone);
  item.resourceUri = Uri.from({ scheme: SCHEME, path: `/${node.id}`, query: tone });
  item.contextValue = "figure";
  item.command = {
    command: "vscode.open",
    title: l10n.t("Go to Its Declaration"),
    arguments: [Uri.parse(entry.uri), { selection }],
  };
  return item;
}

function iconOf({ complete }: Entry, tone: string): ThemeIcon {
  if (tone === "over") return new ThemeIcon("error", new ThemeColor("list.errorForeground"));
  if (tone === "at-risk") return new ThemeIcon("warning", new ThemeColor("list.warningForeground"));
  if (!complete) return new ThemeIcon("question");
  // as wide as the others, so that bars stand below each other
  return new ThemeIcon("blank");
}

const SCHEME = "poise-budget";

/** Rows have the color of what is wrong with them, and guesses fade. */
function decorations(): Disposable {
  const colors: Readonly<Record<string, ThemeColor>> = {
    over: new ThemeColor("list.errorForeground"),
    "at-risk": new ThemeColor("list.warningForeground"),
    guess: new ThemeColor("descriptionForeground"),
  };
  return window.registerFileDecorationProvider({
    provideFileDecoration: ({ scheme, query }) => {
      const color = scheme === SCHEME ? colors[query] : undefined;
      return color && { color };
    },
  });
}

function poiseIn(editor: TextEditor | undefined): TextEditor | undefined {
  return editor?.document.languageId === "poise" ? editor : undefined;
}
