// While bowls are weighed: the net so far, as one types. It reckons in whole
// thousand-millionths of a gram and says what the button "Add up" says; what it cannot read
// it leaves to that button. The form works without this.
"use strict";
(() => {
  const perUnit = { kg: 1000000000000n, g: 1000000000n, lb: 453592370000n, oz: 28349523125n };

  // plain reads a bare number as millionths of it; null where it is none.
  function plain(text) {
    const parts = /^(\d{1,9})(?:[.](\d{1,6})|,(\d{1,2}|\d{4,6}))?$/.exec(text.trim());
    return parts && BigInt(parts[1]) * 1000000n + BigInt((parts[2] ?? parts[3] ?? "").padEnd(6, "0"));
  }

  // net is the millionths of the unit that lie in all bowls; null where a box cannot
  // be read, a bowl is missing or one holds nothing.
  function net(form) {
    let sum = 0n;
    for (const full of form.querySelectorAll("[name^=bowl-][name$=-full]")) {
      const empty = form.elements[full.name.replace("-full", "-empty")];
      if (full.value.trim() === "" && empty.value.trim() === "") continue;
      const gross = plain(full.value), tare = empty.value.trim() === "" ? 0n : plain(empty.value);
      if (gross === null || tare === null || gross <= tare) return null;
      sum += gross - tare;
    }
    return sum;
  }

  function words(sum, unit) {
    const nano = sum * perUnit[unit] / 1000000n;
    const grams = (nano + 500000000n) / 1000000000n;
    if (grams < 1000n) return grams + " g";
    const tens = (nano + 5000000000n) / 10000000000n;
    return tens / 100n + "." + String(tens % 100n).padStart(2, "0") + " kg";
  }

  addEventListener("input", event => {
    const form = event.target.form, says = form?.querySelector("[data-net]");
    if (!says) return;
    const sum = net(form);
    says.textContent = sum ? words(sum, form.elements.unit.value) + " net so far" : "";
  });
})();
