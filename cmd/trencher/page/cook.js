// While a plan is cooked: counts down to each moment, sounds when it has come,
// keeps the screen on where the browser lets it, and asks for the screen anew.
// All that is said and written down goes by forms, which work without this.
"use strict";
(() => {
  let shown = null, loadedAt = 0, awake = null, sound = null, mute = false, asking = false;
  const rung = new Set(); // the moments that were sounded

  const cooking = () => document.querySelector("[data-cooking]");

  // now is the plan's clock: the one the screen was made by.
  const now = root => Number(root.dataset.now) + performance.now() - loadedAt;

  function tick() {
    const root = cooking();
    if (!root) {
      awake?.release();
      awake = shown = null;
      return;
    }
    if (root !== shown) {
      const first = !shown;
      shown = root;
      loadedAt = performance.now();
      if (first) for (const each of timers(root)) if (left(root, each) <= 0) rung.add(nameOf(each));
      keepAwake();
      if (navigator.userActivation?.hasBeenActive) listen();
    }
    tellOfSound();
    let come = false;
    for (const each of timers(root)) {
      const seconds = Math.ceil(left(root, each) / 1000);
      each.textContent = seconds <= 0 ? "now" : "in " + clock(seconds);
      if (seconds <= 0 && !rung.has(nameOf(each))) {
        rung.add(nameOf(each));
        come = true;
      }
    }
    if (come) ring();
    if (come || performance.now() - loadedAt > 1000 * Number(root.dataset.again)) again(root);
  }

  const timers = root => root.querySelectorAll("[data-until]");
  const left = (root, each) => Number(each.dataset.until) - now(root);
  const nameOf = each => each.closest("section")?.querySelector(".what")?.id + "@" + each.dataset.until;

  function clock(seconds) {
    const two = n => String(n).padStart(2, "0");
    const hours = Math.floor(seconds / 3600), minutes = Math.floor(seconds / 60) % 60;
    return (hours ? hours + ":" + two(minutes) : minutes) + ":" + two(seconds % 60);
  }

  // again asks for the screen anew and puts it in the place of the old one. A
  // shell around the page, which has it from elsewhere, says so and shows it.
  async function again(root) {
    if (asking) return;
    root.dataset.now = now(root);
    loadedAt = performance.now();
    const show = text => {
      const page = new DOMParser().parseFromString(text, "text/html"), fresh = page.querySelector("[data-cooking]");
      if (!fresh || !root.isConnected) return;
      document.querySelector("main").dataset.shown = page.querySelector("main").dataset.shown;
      replace(root, fresh);
    };
    if (!document.dispatchEvent(new CustomEvent("stale", { cancelable: true, detail: { show } }))) return;
    asking = true;
    try {
      const address = new URL(location.href);
      address.searchParams.delete("done"); // that was said once
      const answer = await fetch(address, { cache: "no-store", signal: AbortSignal.timeout(10000) });
      if (answer.ok) show(await answer.text());
      document.dispatchEvent(new Event("reached"));
    } catch {
      document.dispatchEvent(new Event("unreached")); // what stands there is still the plan
    } finally {
      asking = false;
    }
  }

  function replace(root, fresh) {
    const open = [...root.querySelectorAll("details[open]")].map(each => each.id);
    const at = document.activeElement, form = at?.form;
    const step = form?.elements.step?.value, says = at?.value;
    root.replaceWith(fresh);
    for (const id of open) if (id) document.getElementById(id)?.setAttribute("open", "");
    if (!form) return;
    for (const each of fresh.querySelectorAll("button")) {
      if (each.value === says && each.form?.elements.step?.value === step) each.focus({ preventScroll: true });
    }
  }

  // A browser sounds only for somebody who has touched the page.
  addEventListener("pointerdown", () => {
    if (!cooking()) return;
    listen();
    keepAwake();
  });

  function listen() {
    try {
      sound ||= new AudioContext();
      sound.resume().catch(() => {});
    } catch {
      mute = true; // it has none; the screen tells as much
    }
  }

  // tellOfSound says what sounding still needs, where the browser has any.
  function tellOfSound() {
    const says = document.getElementById("sound");
    if (says) says.hidden = !window.AudioContext || mute || sound?.state === "running";
  }

  function ring() {
    navigator.vibrate?.([300, 150, 300]);
    if (sound?.state !== "running") return;
    for (const [n, pitch] of [660, 880, 660].entries()) {
      const tone = sound.createOscillator(), loud = sound.createGain();
      tone.frequency.value = pitch;
      const from = sound.currentTime + 0.35 * n;
      loud.gain.setValueAtTime(0, from);
      loud.gain.linearRampToValueAtTime(0.3, from + 0.02);
      loud.gain.linearRampToValueAtTime(0, from + 0.3);
      tone.connect(loud).connect(sound.destination);
      tone.start(from);
      tone.stop(from + 0.3);
    }
  }

  async function keepAwake() {
    if (awake || document.visibilityState !== "visible" || !navigator.wakeLock) return;
    try {
      awake = await navigator.wakeLock.request("screen");
      awake.addEventListener("release", () => { awake = null; });
    } catch {
      awake = null; // it does not want to; the screen goes dark as it always does
    }
  }
  document.addEventListener("visibilitychange", () => { if (cooking()) keepAwake(); });

  // Without this script the browser loads the screen again, as its header asks;
  // with it that is not wanted.
  addEventListener("load", () => { if (cooking()) stop(); });

  setInterval(tick, 500);
  document.addEventListener("DOMContentLoaded", tick);
})();
