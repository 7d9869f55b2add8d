import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { useUnitsBeyond } from "../model/units-beyond";
import { askedDisk } from "./asked-disk";
import { ownDisk } from "./disk";
import { editorAt } from "./editor-files";
import { gitBase } from "./git-base";
import { serve } from "./server";
import { unitsBeyond } from "./units-mathjs";
import type { DiskFor } from "./workspace";

useUnitsBeyond(unitsBeyond);
// over IPC for VS Code, over standard input and output for every other editor
const connection = createConnection(ProposedFeatures.all);

/** This machine's files are read here; those of file systems that only the editor knows, by it. */
const disks: DiskFor = changed => {
  const own = ownDisk(changed);
  const asked = askedDisk(editorAt(connection))(changed);
  const isAsked = (path: string) => /^[a-z][\w+.-]+:/i.test(path);
  const diskOf = (path: string) => (isAsked(path) ? asked : own);
  return {
    file: path => diskOf(path).file(path),
    folder: path => diskOf(path).folder(path),
    look: paths => {
      const [there, here] = [paths.filter(isAsked), paths.filter(it => !isAsked(it))];
      if (here.length > 0) own.look(here);
      if (there.length > 0) asked.look(there);
    },
    settled: asked.settled,
  };
};

serve(connection, disks, gitBase);
