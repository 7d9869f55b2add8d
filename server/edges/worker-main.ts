import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
} from "vscode-languageserver/browser";
import { useUnitsBeyond } from "../model/units-beyond";
import { askedDisk } from "./asked-disk";
import { editorAt } from "./editor-files";
import { serve } from "./server";
import { unitsBeyond } from "./units-mathjs";

useUnitsBeyond(unitsBeyond);

const connection = createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self));
serve(connection, askedDisk(editorAt(connection)));

declare const self: ConstructorParameters<typeof BrowserMessageReader>[0];
