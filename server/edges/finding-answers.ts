import type * as lsp from "vscode-languageserver";
import { judge } from "../judge";
import { memo } from "../memo";
import type { Project } from "../project";
import { CODE_SCHEME } from "./code-pages";
import { publisher } from "./publish";
import { type Pulls, pulls } from "./pulls";
import { refresher, whenResting } from "./refresh";
import { type FileReport, reportsOf, type Shows } from "./reports";
import { pathOf } from "./uris";

/** Findings for an editor that asks for them, or is sent them because it does not. */
export interface FindingAnswers extends Pick<Pulls, "workspace" | "end"> {
  /** Settles with which kind of editor this is. */
  readonly agree: (editor: lsp.ClientCapabilities) => Partial<lsp.ServerCapabilities>;
  readonly document: Pulls["document"];
  /** A document was edited or closed: the editor asks for it by itself, or no more. */
  readonly forget: (uri: string) => void;
  /** The picture is another one: findings are of this one from now on. */
  readonly changed: (project: Project) => void;
  /** Other files are shown. */
  readonly shown: () => void;
}

/**
 * One picture behind all: what is asked for, what is kept open for later changes and what is sent are
 * the same lists. An editor that asks only for what it shows is sent the rest.
 */
export function findingAnswers(
  isOpen: (path: string) => boolean,
  send: (params: lsp.PublishDiagnosticsParams) => void,
  askAgain: () => void,
): FindingAnswers {
  let shows: Shows = { fades: false, pages: false };
  let asks = false;
  let related = false;
  const reports = memo((picture: Project) => reportsOf(picture, judge(picture), shows));
  let project: Project | undefined;
  // before the first picture is whole there is nothing to say
  const now = () => (project ? reports(project) : new Map<string, FileReport>());
  const publish = publisher(send);
  const asked = pulls(now, () => related, isOpen);
  const stale = refresher(askAgain);

  /** What nobody asks for: the files that are not shown, until it asks for those of the workspace. */
  const publishRest = () => {
    const rest = asked.ofWorkspace() || related ? [] : now();
    publish(new Map([...rest].filter(([path]) => !isOpen(path))));
  };
  const restLater = whenResting(publishRest);

  return {
    agree: ({ textDocument, workspace }) => {
      const { diagnostic, publishDiagnostics } = textDocument ?? {};
      asks = diagnostic !== undefined;
      related = diagnostic?.relatedDocumentSupport === true;
      const draws = asks ? diagnostic : publishDiagnostics;
      const opens = workspace?.textDocumentContent !== undefined;
      shows = {
        fades: draws?.tagSupport?.valueSet.includes(1) === true,
        pages: opens && draws?.codeDescriptionSupport === true,
      };
      return {
        ...(asks && {
          diagnosticProvider: {
            identifier: "poise",
            interFileDependencies: true,
            workspaceDiagnostics: true,
          },
        }),
        workspace: {
          workspaceFolders: { supported: true, changeNotifications: true },
          ...(opens && { textDocumentContent: { schemes: [CODE_SCHEME] } }),
        },
      };
    },
    document: params => {
      const { uri } = params.textDocument;
      const answer = asked.document(params);
      const again = () => now().get(pathOf(uri))?.text;
      stale.told(uri, again(), again);
      return answer;
    },
    workspace: (params, cancelled, parts) => {
      const answer = asked.workspace(params, cancelled, parts);
      publishRest();
      return answer;
    },
    forget: stale.forget,
    changed: picture => {
      project = picture;
      if (!asks) {
        publish(now());
        return;
      }
      asked.changed();
      stale.changed();
      restLater();
    },
    shown: () => {
      if (asks) restLater();
    },
    end: asked.end,
  };
}
