import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { useUnitsBeyond } from "../model/units-beyond";
import { ownDisk } from "./disk";
import { serve } from "./server";
import { unitsBeyond } from "./units-mathjs";

useUnitsBeyond(unitsBeyond);
// over IPC for VS Code, over standard input and output for every other editor
serve(createConnection(ProposedFeatures.all), ownDisk);
