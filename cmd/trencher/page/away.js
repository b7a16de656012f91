// Where the network may go: what is on the screen stays there. A link or a form
// is followed once the page's machine was reached; else the screen says that it
// was not, and as of when it is. Nothing that was typed is lost. Without this
// the browser follows at once, and shows an error of its own.
"use strict";
(() => {
  const patience = 5000; // milliseconds until there is no network
  let asking = false, sending = null;

  async function isReached() {
    try {
      const own = document.querySelector("link[rel=stylesheet]").href;
      await fetch(own, { method: "HEAD", cache: "no-store", signal: AbortSignal.timeout(patience) });
      return true;
    } catch {
      return false;
    }
  }

  // reach asks once at a time whether the page's machine is there, and says so
  // where it is not.
  async function reach(lost) {
    asking = true;
    const reached = await isReached();
    asking = false;
    reached ? clear() : say(lost);
    return reached;
  }

  function say(lost) {
    const main = document.querySelector("main");
    let note = document.getElementById("away");
    if (!note) {
      note = document.createElement("p");
      note.id = "away";
      note.setAttribute("role", "status");
      main.prepend(note);
    }
    note.textContent = ["No network.", lost, "What stands here is as of " + main.dataset.shown + "."].filter(Boolean).join(" ");
  }

  const clear = () => document.getElementById("away")?.remove();

  document.addEventListener("click", async event => {
    const link = event.target.closest?.("a[href]");
    if (!link || event.defaultPrevented || event.button || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
    if (link.origin !== location.origin || link.getAttribute("href").startsWith("#")) return;
    event.preventDefault();
    if (!asking && await reach()) location.assign(link.href);
  });

  document.addEventListener("submit", async event => {
    const form = event.target, by = event.submitter;
    if (event.defaultPrevented || form === sending) return;
    event.preventDefault();
    if (asking || !await reach("Nothing was sent; what you typed is still here.")) return;
    if (!form.isConnected) { // the screen was renewed meanwhile
      form.hidden = true;
      document.body.append(form);
    }
    sending = form;
    form.requestSubmit(by);
    sending = null;
  });

  addEventListener("offline", () => say());
  addEventListener("online", () => reach());
  document.addEventListener("unreached", () => say());
  document.addEventListener("reached", clear);
})();
