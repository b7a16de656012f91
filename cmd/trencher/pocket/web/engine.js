// The engine runs trencher's own page inside the browser, in a worker of its
// own so that the screen stays quick. It gives the program a small file system
// whose files lie in the browser's own store, one record for each, and puts
// requests to it. Nothing leaves the phone.
"use strict";
const storeName = "trencher";
const files = new Map();   // path -> {bytes: Uint8Array} or {folder: true}
const open = new Map();    // file number -> {path, file, position}
let nextFile = 100;
let store = null;          // the browser's store, or null where it has none
let lasting = false;

// ---- the store ----

function done(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function committed(transaction) {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error || new DOMException("aborted", "AbortError"));
    transaction.onerror = () => {};
  });
}

async function openStore() {
  try {
    const asked = indexedDB.open(storeName, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("files");
    store = await done(asked);
    store.onversionchange = () => store.close();
    lasting = true;
  } catch {
    store = null;
  }
}

// change runs one change of the store and returns when it is on the disk.
async function change(run) {
  if (!store) return;
  const transaction = store.transaction("files", "readwrite", { durability: "strict" });
  const over = committed(transaction);
  run(transaction.objectStore("files"));
  await over;
}

// refresh takes over what another window of the same phone has written.
async function refresh() {
  if (!store) return;
  const records = store.transaction("files").objectStore("files");
  const keys = new Set(await done(records.getAllKeys()));
  for (const path of [...files.keys()]) {
    if (!keys.has(path) && !passing(path) && !files.get(path).given) files.delete(path);
  }
  const wanted = [...keys].filter(path => !files.has(path) || changing(path));
  const found = await Promise.all(wanted.map(path => done(records.get(path))));
  found.forEach((record, n) => files.set(wanted[n], record.folder ? { folder: true } : { bytes: record.bytes }));
  if (!files.has("/")) files.set("/", { folder: true, given: true });
}

// passing tells the files that are still being written: they are nobody's yet,
// and are not kept.
const passing = path => /\/\.unfinished-[^/]*$|\.part$/.test(path);

// changing tells the few files that are replaced and not only added.
const changing = path => !path.includes("/journal/");

function record(file) {
  return file.folder ? { folder: true } : { bytes: file.bytes };
}

// ---- the file system the program sees ----

const flags = { O_WRONLY: 1, O_RDWR: 2, O_CREAT: 64, O_TRUNC: 512, O_APPEND: 1024, O_EXCL: 128, O_DIRECTORY: 65536 };

function failure(code) {
  const error = new Error(code);
  error.code = code;
  return error;
}

// storeFailure is the program's word for what the browser's store refused.
function storeFailure(error) {
  switch (error && error.name) {
    case "ConstraintError": return failure("EEXIST");
    case "QuotaExceededError": return failure("ENOSPC");
  }
  return failure("EIO");
}

function resolve(path) {
  const parts = [];
  for (const part of String(path).split("/")) {
    if (part === "..") parts.pop();
    else if (part !== "" && part !== ".") parts.push(part);
  }
  return "/" + parts.join("/");
}

const parent = path => path.slice(0, path.lastIndexOf("/")) || "/";

function find(path) {
  const file = files.get(resolve(path));
  if (!file) throw failure("ENOENT");
  return file;
}

function stat(file) {
  const now = 0;
  return {
    dev: 0, ino: 0, nlink: 1, uid: 0, gid: 0, rdev: 0, blksize: 4096, blocks: 0,
    mode: file.folder ? 0o40755 : 0o100644,
    size: file.folder ? 0 : file.bytes.length,
    atimeMs: now, mtimeMs: now, ctimeMs: now,
    isDirectory: () => !!file.folder,
  };
}

// answer calls back as the program expects it, whatever a step came to.
function answer(callback, step) {
  Promise.resolve().then(step).then(
    value => callback(null, value),
    error => callback(error.code ? error : failure("EIO")));
}

// keep puts a file that is open on the disk, unless it is still nobody's.
async function keep(handle) {
  if (handle.file.folder || passing(handle.path)) return;
  handle.changed = false;
  await change(records => records.put(record(handle.file), handle.path)).catch(error => { throw storeFailure(error); });
}

let said = "";
globalThis.fs = {
  constants: flags,
  writeSync(number, bytes) { // the program's own last words
    said += new TextDecoder().decode(bytes);
    const end = said.lastIndexOf("\n");
    if (end >= 0) {
      console.error(said.slice(0, end));
      said = said.slice(end + 1);
    }
    return bytes.length;
  },
  write(number, bytes, offset, length, position, callback) {
    if (number <= 2) {
      callback(null, this.writeSync(number, bytes.subarray(offset, offset + length)));
      return;
    }
    answer(callback, () => {
      const handle = open.get(number);
      if (!handle) throw failure("EBADF");
      const at = position === null ? handle.position : position;
      const end = at + length;
      const grown = new Uint8Array(Math.max(end, handle.file.bytes.length));
      grown.set(handle.file.bytes);
      grown.set(bytes.subarray(offset, offset + length), at);
      handle.file.bytes = grown;
      handle.changed = true;
      if (position === null) handle.position = end;
      return length;
    });
  },
  read(number, buffer, offset, length, position, callback) {
    answer(callback, () => {
      const handle = open.get(number);
      if (!handle) throw failure("EBADF");
      if (handle.file.folder) throw failure("EISDIR");
      const at = position === null ? handle.position : position;
      const piece = handle.file.bytes.subarray(at, at + length);
      buffer.set(piece, offset);
      if (position === null) handle.position = at + piece.length;
      return piece.length;
    });
  },
  open(path, mode, rights, callback) {
    answer(callback, async () => {
      path = resolve(path);
      let file = files.get(path);
      if (!file) {
        if (!(mode & flags.O_CREAT)) throw failure("ENOENT");
        if (!files.get(parent(path))?.folder) throw failure("ENOENT");
        file = { bytes: new Uint8Array() };
        if (!passing(path)) {
          await change(records => records.add(record(file), path)).catch(error => { throw storeFailure(error); });
        }
        files.set(path, file);
      } else if (mode & flags.O_CREAT && mode & flags.O_EXCL) {
        throw failure("EEXIST");
      }
      if (file.folder && mode & (flags.O_WRONLY | flags.O_RDWR)) throw failure("EISDIR");
      if (mode & flags.O_DIRECTORY && !file.folder) throw failure("ENOTDIR");
      if (mode & flags.O_TRUNC && !file.folder) file.bytes = new Uint8Array();
      nextFile++;
      open.set(nextFile, { path, file, position: 0 });
      return nextFile;
    });
  },
  close(number, callback) {
    answer(callback, async () => {
      const handle = open.get(number);
      open.delete(number);
      if (handle && handle.changed) await keep(handle);
    });
  },
  // What is still being written is kept by the link or the rename that gives it
  // its name.
  fsync(number, callback) {
    answer(callback, async () => {
      const handle = open.get(number);
      if (!handle) throw failure("EBADF");
      await keep(handle);
    });
  },
  fstat(number, callback) {
    answer(callback, () => {
      const handle = open.get(number);
      if (!handle) throw failure("EBADF");
      return stat(handle.file);
    });
  },
  stat(path, callback) { answer(callback, () => stat(find(path))); },
  lstat(path, callback) { answer(callback, () => stat(find(path))); },
  readdir(path, callback) {
    answer(callback, () => {
      if (!find(path).folder) throw failure("ENOTDIR");
      const within = resolve(path) === "/" ? "/" : resolve(path) + "/";
      const names = [];
      for (const each of files.keys()) {
        if (each.startsWith(within) && each !== "/" && !each.slice(within.length).includes("/")) names.push(each.slice(within.length));
      }
      return names.sort();
    });
  },
  mkdir(path, rights, callback) {
    answer(callback, async () => {
      path = resolve(path);
      if (files.has(path)) throw failure("EEXIST");
      if (!files.get(parent(path))?.folder) throw failure("ENOENT");
      await change(records => records.put({ folder: true }, path)).catch(error => { throw storeFailure(error); });
      files.set(path, { folder: true });
    });
  },
  // link gives a whole file a name nobody has: the store itself refuses a name
  // that another window has taken meanwhile.
  link(from, to, callback) {
    answer(callback, async () => {
      to = resolve(to);
      const file = { bytes: find(from).bytes };
      if (files.has(to)) throw failure("EEXIST");
      if (!files.get(parent(to))?.folder) throw failure("ENOENT");
      await change(records => records.add(record(file), to)).catch(error => { throw storeFailure(error); });
      files.set(to, file);
    });
  },
  rename(from, to, callback) {
    answer(callback, async () => {
      from = resolve(from);
      to = resolve(to);
      const file = find(from);
      if (file.folder) throw failure("EPERM");
      await change(records => {
        records.put(record(file), to);
        if (!passing(from)) records.delete(from);
      }).catch(error => { throw storeFailure(error); });
      files.set(to, file);
      files.delete(from);
    });
  },
  unlink(path, callback) {
    answer(callback, async () => {
      path = resolve(path);
      if (find(path).folder) throw failure("EISDIR");
      if (!passing(path)) await change(records => records.delete(path)).catch(error => { throw storeFailure(error); });
      files.delete(path);
    });
  },
  rmdir(path, callback) {
    answer(callback, async () => {
      path = resolve(path);
      if (!find(path).folder) throw failure("ENOTDIR");
      for (const each of files.keys()) if (each.startsWith(path + "/")) throw failure("ENOTEMPTY");
      await change(records => records.delete(path)).catch(error => { throw storeFailure(error); });
      files.delete(path);
    });
  },
  chmod(path, mode, callback) { answer(callback, () => { find(path); }); },
  fchmod(number, mode, callback) { answer(callback, () => {}); },
  chown(path, uid, gid, callback) { answer(callback, () => { throw failure("ENOSYS"); }); },
  fchown(number, uid, gid, callback) { answer(callback, () => { throw failure("ENOSYS"); }); },
  lchown(path, uid, gid, callback) { answer(callback, () => { throw failure("ENOSYS"); }); },
  ftruncate(number, length, callback) { answer(callback, () => { throw failure("ENOSYS"); }); },
  truncate(path, length, callback) { answer(callback, () => { throw failure("ENOSYS"); }); },
  readlink(path, callback) { answer(callback, () => { throw failure("EINVAL"); }); },
  symlink(path, link, callback) { answer(callback, () => { throw failure("ENOSYS"); }); },
  utimes(path, atime, mtime, callback) { answer(callback, () => {}); },
};
globalThis.process = {
  getuid: () => 0, getgid: () => 0, geteuid: () => 0, getegid: () => 0,
  getgroups() { throw failure("ENOSYS"); },
  pid: 1, ppid: 1,
  umask() { throw failure("ENOSYS"); },
  cwd: () => "/",
  chdir() { throw failure("ENOSYS"); },
};
globalThis.path = { resolve: (...parts) => resolve(parts.join("/")) };

// ---- starting, and answering ----

let module = null; // the program, compiled

async function start({ program, plot, zone, lent }) {
  const compiled = compile(program); // while the store is read
  compiled.catch(() => {}); // told below, where it is waited for
  if (lent) { // another engine's program and files, to be tried on and kept nowhere
    for (const [path, file] of lent) files.set(path, file);
  } else {
    await openStore();
    files.set("/", { folder: true, given: true });
    await refresh();
    files.set("/parcel.zip", { bytes: new Uint8Array(plot), given: true });
  }
  if (typeof Go === "undefined") importScripts("go.js"); // the one file has it before this script
  const go = new Go();
  go.env = { TZ: zone, HOME: "/", GOGC: "400" }; // it starts sooner, and a phone has the memory
  const ready = new Promise((resolve, reject) => {
    globalThis.trencherReady = problem => (problem ? reject(new Error(problem)) : resolve());
  });
  module = await compiled;
  const instance = await WebAssembly.instantiate(module, go.importObject);
  go.run(instance).then(() => postMessage({ kind: "ended" }));
  await ready;
}

// compile makes the program ready to run: the one that was handed over, or else
// the one that the service worker keeps unpacked.
async function compile(program) {
  if (program instanceof WebAssembly.Module) return program;
  if (!program) {
    const kept = await fetch("program.wasm");
    if (kept.ok) return WebAssembly.compileStreaming(kept);
    program = await (await fetch("program.wasm.gz")).arrayBuffer(); // the browser has cleared it away
  }
  const head = new Uint8Array(program, 0, 2);
  if (head[0] !== 0x1f || head[1] !== 0x8b) return WebAssembly.compile(program); // unpacked by the host on the way
  const unpacked = new Blob([program]).stream().pipeThrough(new DecompressionStream("gzip"));
  return WebAssembly.compileStreaming(new Response(unpacked, { headers: { "Content-Type": "application/wasm" } }));
}

let last = Promise.resolve(); // requests are answered one after the other

async function put(request) {
  await refresh();
  return globalThis.trencherAnswer(request.method, request.url, request.type || "", new Uint8Array(request.body || 0));
}

onmessage = ({ data }) => {
  switch (data.kind) {
    case "start":
      start(data).then(
        () => postMessage({ kind: "ready", lasting }),
        error => postMessage({ kind: "failed", says: String(error && error.message || error) }));
      break;
    case "lend":
      last = last.then(() => postMessage({ kind: "lent", module, files })).catch(() => {}); // this browser hands no program on
      break;
    case "request":
      last = last.then(() => put(data)).then(
        answer => postMessage({ kind: "answer", number: data.number, ...answer }),
        error => postMessage({ kind: "answer", number: data.number, failed: String(error && error.message || error) }));
  }
};
