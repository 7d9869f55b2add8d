// Stands in for the workbench's logger, a native module, so that its Output panel has something to show.
const { appendFileSync, mkdirSync } = require("node:fs");
const { dirname } = require("node:path");

exports.version = 1;
exports.setLevel = () => {};
exports.setFlushOn = () => {};

exports.createRotatingLogger = async (_name, file) => logger(file);
exports.createAsyncRotatingLogger = exports.createRotatingLogger;

function logger(file) {
  mkdirSync(dirname(file), { recursive: true });
  const levels = ["trace", "debug", "info", "warn", "error", "critical"];
  let least = 2;
  let bare = false;
  const write = (level, text) => {
    if (levels.indexOf(level) < least) return;
    const stamp = `${new Date().toISOString().slice(0, 23).replace("T", " ")} [${level}] `;
    appendFileSync(file, bare ? text : `${stamp}${text}\n`);
  };
  return {
    ...Object.fromEntries(levels.map(level => [level, text => write(level, text)])),
    getLevel: () => least,
    setLevel: level => {
      least = level;
    },
    setPattern: () => {},
    clearFormatters: () => {
      bare = true;
    },
    flush: () => {},
    drop: () => {},
  };
}
