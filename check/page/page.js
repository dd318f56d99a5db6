"use strict";
(() => {
  const modes = MODES.modes;
  const groups = [...document.querySelectorAll("[data-picture] g[data-name]")];
  const told = document.getElementById("told");
  const picker = document.getElementById("mode");
  const state = document.getElementById("mode-state");
  let mode = null;

  // A way of a panel and a terminal go by their device where they are not drawn
  // themselves.
  const stateOf = (name) => {
    if (!mode) return null;
    for (let n = name; n; n = n.slice(0, Math.max(0, n.lastIndexOf(".")))) {
      if (Object.hasOwn(mode.names, n)) return mode.names[n];
    }
    return null;
  };
  const findGroups = (name) => {
    for (let n = name; n; n = n.slice(0, Math.max(0, n.lastIndexOf(".")))) {
      const found = groups.filter((g) => g.dataset.name === n);
      if (found.length) return found;
    }
    return [];
  };

  const words = (g) => {
    const name = g.dataset.name;
    const title = g.querySelector(":scope > title");
    const parts = [name];
    const now = stateOf(name);
    if (now) parts.push(`in ${mode.name}: ${[now.live ? "live" : "not live", now.says].filter(Boolean).join(", ")}`);
    const tip = title ? title.textContent : "";
    if (tip && tip !== name) parts.push(tip.startsWith(name) ? tip.slice(name.length).replace(/^[\s,:]+/, "") : tip);
    return parts.join(" \u2013 ");
  };

  const show = (list) => {
    groups.forEach((g) => g.classList.toggle("shown", list.includes(g)));
    if (list.length) told.textContent = words(list[0]);
  };

  const setMode = () => {
    mode = modes.find((m) => m.name === picker.value) || null;
    state.textContent = mode ? mode.state : "";
    document.body.classList.toggle("by-mode", Boolean(mode));
    groups.forEach((g) => {
      const now = stateOf(g.dataset.name);
      g.classList.toggle("live", Boolean(now && now.live));
      g.classList.toggle("flow", Boolean(now && now.flow));
      g.setAttribute("aria-label", words(g));
    });
    show(groups.filter((g) => g.classList.contains("shown")));
  };

  // One stop for the tabulator in each drawing; arrow keys go on from there.
  const walk = (figure) => {
    const inside = groups.filter((g) => figure.contains(g));
    inside.forEach((g, i) => {
      g.setAttribute("tabindex", i ? "-1" : "0");
      g.setAttribute("role", "img");
      g.addEventListener("focus", () => show([g]));
      g.addEventListener("pointerenter", () => show([g]));
      g.addEventListener("click", () => g.focus());
      g.addEventListener("keydown", (e) => {
        const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[e.key];
        const next = step && inside[i + step];
        if (!next) return;
        e.preventDefault();
        g.setAttribute("tabindex", "-1");
        next.setAttribute("tabindex", "0");
        next.focus();
      });
    });
    const svg = figure.querySelector("svg");
    if (svg && inside.length) svg.setAttribute("role", "group");
  };

  const link = (row) => {
    const cell = row.cells[0];
    if (!cell || !findGroups(row.dataset.name).length) return;
    const button = document.createElement("button");
    button.type = "button";
    button.className = "find";
    button.append(...cell.childNodes);
    button.title = "Show it in the drawing";
    button.addEventListener("click", () => {
      const found = findGroups(row.dataset.name);
      found[0].scrollIntoView({ block: "center", inline: "center" });
      found[0].focus({ preventScroll: true });
      show(found);
    });
    cell.append(button);
  };

  document.querySelectorAll("[data-picture]").forEach(walk);
  document.querySelectorAll("tr[data-name]").forEach(link);
  picker.addEventListener("change", setMode);
  const full = document.getElementById("full");
  full.addEventListener("change", () => document.body.classList.toggle("full", full.checked));
  document.getElementById("looking").hidden = false;
  setMode();
})();
