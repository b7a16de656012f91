// The shell shows the screens that the engine makes: it follows their links,
// sends their forms and saves their files, all without a network. It lays
// nothing out and works nothing out.
"use strict";
(() => {
  const waiting = new Map(); // request number -> what to call with its answer
  let engine, second, planAsked = false, numbers = 0, lasting = true, style = null, busy = false, stood = false;
  let isReady, isNot;
  const started = new Promise((resolve, reject) => { isReady = resolve; isNot = reject; });

  const element = (name, text, attributes = {}) => {
    const made = document.createElement(name);
    made.textContent = text;
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    return made;
  };

  // ---- asking the engine ----

  async function ask(method, url, type, body) {
    await started;
    return askOf(engine, method, url, type, body);
  }

  function askOf(engine, method, url, type, body) {
    return new Promise((resolve, reject) => {
      const number = ++numbers;
      waiting.set(number, answer => (answer.failed ? reject(new Error(answer.failed)) : resolve(answer)));
      engine.postMessage({ kind: "request", number, method, url, type, body }, body ? [body] : []);
    });
  }

  const textOf = answer => new TextDecoder().decode(answer.body);
  const header = (answer, name) => answer.headers[name] || "";

  // ---- showing a screen ----

  async function go(url, { method = "GET", type, body, moved = false } = {}) {
    if (busy) return;
    busy = true;
    if (url.startsWith("/share?")) noRehearsal();
    const slow = setTimeout(working, 300);
    try {
      let answer = await ask(method, url, type, body);
      if (method === "POST") await screens.forget(); // they stood before this was written
      for (let n = 0; n < 5 && answer.status >= 300 && answer.status < 400; n++) {
        url = header(answer, "Location");
        method = "GET";
        answer = await ask("GET", url);
      }
      if (header(answer, "Content-Disposition").startsWith("attachment")) {
        save(answer);
        if (method === "POST") await show(await ask("GET", here()), here());
        return;
      }
      if (method === "GET" && !moved && url !== here()) history.pushState({ url }, "", "#" + url);
      await show(answer, url);
      comeAgain(answer);
      if (method === "GET" && answer.status === 200) screens.keep(url);
    } catch (error) {
      trouble("This screen could not be made: " + error.message + " What was written down before is kept.");
    } finally {
      clearTimeout(slow);
      document.getElementById("working")?.remove();
      busy = false;
    }
  }

  // comeAgain asks for a screen once more after as many seconds as it says, so that
  // it stays true; the reader stays where it was read. The page's own script does
  // so itself while a plan is cooked.
  let again;
  function comeAgain(answer) {
    clearTimeout(again);
    const seconds = document.querySelector("[data-cooking]") ? 0 : Number(header(answer, "Refresh"));
    if (seconds > 0) again = setTimeout(() => { stood = true; go(here(), { moved: true }); }, 1000 * seconds);
  }

  function working() {
    document.body.prepend(element("p", "Working it out …", { id: "working", class: "working", role: "status" }));
  }

  function trouble(says) {
    document.body.prepend(element("p", says, { class: "not-kept", role: "alert" }));
    scrollTo(0, 0);
  }

  async function show(answer, url) {
    const page = new DOMParser().parseFromString(textOf(answer), "text/html");
    layOut(page, await stylesOf(page));
    if (!document.querySelector("nav")) { // a sheet to print: a page on the home screen has no other way back
      const back = element("nav", "", { "aria-label": "Back" });
      back.append(element("a", "Back", { class: "back", href: url.replace(/\/[^/?]*(?=\?|$)/, "") || "/" }));
      document.body.prepend(back);
    }
    if (!lasting) {
      const says = element("p", "Nothing stays here once this page is closed: this browser keeps nothing for it. ", { class: "not-kept", role: "alert" });
      says.append(element("a", "Take home what you have written down", { href: "/carry" }));
      document.body.prepend(says);
    }
    const wrong = document.querySelector("[aria-invalid=true]");
    const place = url.includes("#") && document.getElementById(url.split("#")[1]);
    if (wrong) wrong.focus();
    else if (place) place.scrollIntoView();
    else if (!stood) scrollTo(0, 0); // what stood there already is being read
    stood = false;
  }

  // stylesOf are a screen's style sheets: the page's own, or a sheet's.
  async function stylesOf(page) {
    const whole = page.querySelector("link[rel=stylesheet]");
    if (whole && !style) style = textOf(await ask("GET", "/style.css"));
    return [...(whole ? [style] : []), ...[...page.querySelectorAll("style")].map(each => each.textContent)];
  }

  // layOut puts a page with its styles in the place of the one that is shown.
  function layOut(page, styles) {
    document.adoptedStyleSheets = styles.map(text => {
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(text);
      return sheet;
    });
    page.querySelectorAll("style").forEach(each => each.remove());
    document.title = page.title;
    document.body.className = page.body.className;
    document.body.replaceChildren(...page.body.childNodes);
    for (const each of document.querySelectorAll("figure, .drawing")) { // in large type a drawing may be wider than the screen
      if (each.scrollWidth > each.clientWidth) each.tabIndex = 0; // and is moved by keys too
    }
    performance.mark("shown");
    screens.last = { title: page.title, text: document.body.outerHTML, styles };
  }

  // ---- the screens as they stood ----

  // The screens shown last are kept, to be read at once while the program
  // starts. Nothing can be written on them. What is said of cooked food, and what
  // to do now while cooking, holds for its moment alone, and is not kept.
  const screens = {
    last: null,
    of: url => withoutDone(url).replace(/#.*/, ""),
    opened: null,
    open() {
      this.opened ||= new Promise((resolve, reject) => {
        const asked = indexedDB.open("trencher-screens", 1);
        asked.onupgradeneeded = () => asked.result.createObjectStore("screens");
        asked.onsuccess = () => resolve(asked.result);
        asked.onerror = () => reject(asked.error);
      });
      return this.opened;
    },
    // use runs one step on the store. A browser that keeps none does without.
    async use(mode, step) {
      try {
        const request = step((await this.open()).transaction("screens", mode).objectStore("screens"));
        return await new Promise((resolve, reject) => {
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => reject(request.error);
        });
      } catch {
        return undefined;
      }
    },
    async keep(url) {
      if (/^\/(fridge|cook)\b/.test(url)) return;
      if (await this.use("readonly", kept => kept.count()) >= 20) await this.forget();
      await this.use("readwrite", kept => kept.put({ ...this.last, at: Date.now() }, this.of(url)));
    },
    forget() { return this.use("readwrite", kept => kept.clear()); },
    async show(url) {
      const found = await this.use("readonly", kept => kept.get(this.of(url)));
      const starting = document.getElementById("starting");
      if (!found || !starting) return;
      const page = new DOMParser().parseFromString(found.text, "text/html");
      page.title = found.title;
      page.querySelectorAll(".done, .not-kept, #working").forEach(each => each.remove());
      page.querySelectorAll("button, input, select, textarea").forEach(each => { each.disabled = true; });
      layOut(page, found.styles);
      const when = new Date(found.at).toLocaleString([], { weekday: "short", day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });
      starting.prepend(element("p", "As it stood on " + when + ". Nothing can be written down yet."));
      document.body.prepend(starting);
      performance.mark("stood");
      stood = true;
    },
  };

  function save(answer) {
    const name = /filename="([^"]+)"/.exec(header(answer, "Content-Disposition"))?.[1] || "trencher.txt";
    const link = element("a", name, { download: name });
    link.href = URL.createObjectURL(new Blob([answer.body], { type: header(answer, "Content-Type") }));
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  }

  // ---- links, forms, back and forth ----

  // withoutDone is an address that does not ask what was just written down.
  const withoutDone = url => url.replace(/([?&])done=[^&#]*&?/, "$1").replace(/[?&](?=#|$)/, "");

  const here = () => (location.hash.startsWith("#/") ? decodeURI(location.hash.slice(1)) : "/");

  document.addEventListener("click", event => {
    const link = event.target.closest?.("a[href]");
    if (!link || link.hasAttribute("download") || event.defaultPrevented) return;
    const href = link.getAttribute("href");
    if (href.startsWith("#")) {
      event.preventDefault();
      const place = document.getElementById(href.slice(1));
      place?.scrollIntoView();
      place?.focus({ preventScroll: true });
    } else if (!/^[a-z]+:/i.test(href)) {
      event.preventDefault();
      go(against(href));
    }
  });

  // against is an address within the page, as it stands against the one shown.
  function against(href) {
    const whole = new URL(href, "https://localhost" + here());
    return whole.pathname + whole.search + whole.hash;
  }

  document.addEventListener("submit", async event => {
    event.preventDefault();
    const form = event.target, by = event.submitter;
    const method = (by?.getAttribute("formmethod") || form.getAttribute("method") || "get").toUpperCase();
    const url = against(by?.getAttribute("formaction") || form.getAttribute("action") || here());
    const values = new FormData(form, by);
    if (method === "GET") {
      go(url.split("?")[0] + "?" + new URLSearchParams(values));
      return;
    }
    navigator.storage?.persist?.(); // what is written down from here on is to stay
    const sent = new Response(form.enctype === "multipart/form-data" ? values : new URLSearchParams(values));
    go(url, { method, type: sent.headers.get("Content-Type"), body: await sent.arrayBuffer() });
  });

  // The page's own script asks for what has become stale: here the engine makes it.
  document.addEventListener("stale", event => {
    event.preventDefault();
    if (busy) return;
    ask("GET", withoutDone(here())).then(answer => { if (!busy && answer.status === 200) event.detail.show(textOf(answer)); }, () => {});
  });

  addEventListener("popstate", () => go(here(), { moved: true }));

  // ---- starting ----

  const bar = document.getElementById("progress");

  async function fetchWhole(name, told) {
    const response = await fetch(name);
    if (!response.ok) throw new Error(name + " is not there (" + response.status + ")");
    const total = Number(response.headers.get("Content-Length")), parts = [];
    let had = 0;
    for (const reader = response.body.getReader(); ;) {
      const { done, value } = await reader.read();
      if (done) break;
      parts.push(value);
      had += value.length;
      if (told && total) bar.value = had / total;
    }
    return new Blob(parts).arrayBuffer();
  }

  function inside(id) { // what the one file holds itself
    const text = document.getElementById(id).textContent.trim();
    const bytes = Uint8Array.from(atob(text), c => c.charCodeAt(0));
    document.getElementById(id).remove();
    return bytes.buffer;
  }

  const stage = says => { document.getElementById("stage").textContent = says; };

  // keeping returns whether the service worker serves this page from what it
  // keeps. The first time it waits until all is kept, so that all is loaded once.
  async function keeping() {
    const workers = navigator.serviceWorker;
    if (!workers) return false;
    workers.addEventListener("message", ({ data }) => { bar.value = data.loaded; });
    const registered = workers.register("worker.js");
    if (workers.controller) {
      registered.catch(() => {}); // no network
      return true;
    }
    try {
      const coming = (await registered).installing;
      if (!coming) return false; // loaded past it, by the reader's wish
      return await new Promise(resolve => {
        workers.addEventListener("controllerchange", () => resolve(true));
        coming.addEventListener("statechange", () => { if (coming.state === "redundant") resolve(false); });
      });
    } catch {
      return false;
    }
  }

  async function begin() {
    const oneFile = !!document.getElementById("program");
    screens.show(here());
    const kept = !oneFile && await keeping();
    const program = oneFile ? inside("program") : kept ? undefined : await fetchWhole("program.wasm.gz", true);
    const plot = oneFile ? inside("plot") : await fetchWhole("plot.zip");
    bar.removeAttribute("value");
    stage("Starting …");
    const address = oneFile
      ? URL.createObjectURL(new Blob([document.getElementById("engine").textContent], { type: "text/javascript" }))
      : "engine.js";
    engine = new Worker(address);
    engine.onmessage = ({ data }) => {
      switch (data.kind) {
        case "ready":
          lasting = data.lasting;
          isReady();
          go(here(), { moved: true }).then(rehearseSoon);
          break;
        case "failed":
          isNot(new Error(data.says));
          break;
        case "ended":
          trouble("It has stopped. Load this page again; what was written down is kept.");
          break;
        case "lent":
          rehearse(address, data);
          break;
        case "answer":
          answered(data);
      }
    };
    engine.onerror = event => isNot(new Error(event.message));
    engine.postMessage({ kind: "start", program, plot, zone }, program ? [program, plot] : [plot]);
  }

  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;

  function answered(answer) {
    waiting.get(answer.number)?.(answer);
    waiting.delete(answer.number);
  }

  // ---- a plan is rehearsed ----

  // A browser makes each part of the program ready when it first runs, which takes
  // most of the time of a first plan. So while the first screen is read a plan is
  // made out of the way, by a second engine that shares the program and keeps
  // nothing.
  function rehearseSoon() {
    if (navigator.hardwareConcurrency > 1) setTimeout(() => engine.postMessage({ kind: "lend" }), 500);
  }

  // noRehearsal ends it where a plan is asked for: that makes its parts ready itself.
  function noRehearsal() {
    planAsked = true;
    second?.terminate();
  }

  async function rehearse(address, { module, files }) {
    if (planAsked) return;
    second = new Worker(address);
    const plan = async () => {
      const screen = new DOMParser().parseFromString(textOf(await askOf(second, "GET", "/share")), "text/html");
      const asked = new URLSearchParams(new FormData(screen.querySelector("form[action='/share']:not([method])")));
      await askOf(second, "GET", "/share?go=1&" + asked);
    };
    try {
      await new Promise((resolve, reject) => {
        second.onerror = reject;
        second.onmessage = ({ data }) => {
          if (data.kind === "answer") answered(data);
          else if (data.kind === "ready") plan().then(resolve, reject);
          else reject(new Error(data.says));
        };
        second.postMessage({ kind: "start", program: module, lent: files, zone });
      });
      performance.mark("rehearsed");
    } catch {
      // the first plan takes its time, then
    } finally {
      second.terminate();
    }
  }

  started.catch(error => {
    document.getElementById("stage")?.remove();
    bar.remove();
    trouble("It could not start: " + error.message + " What was written down is kept.");
  });
  begin().catch(isNot);
})();
