/* A note on a page, kept in this browser. Pages work without this file; the list of all is in snags.js. */
"use strict";
(() => {
  const { root } = document.currentScript.dataset;
  const ROOT = new URL(root || ".", location.href);
  const NOTED = ["page--topic", "page--place", "page--checklist", "page--lights", "page--numbers"];
  const $ = (selector, from = document) => from.querySelector(selector);

  function make(name, className, ...children) {
    const node = document.createElement(name);
    if (className) node.className = className;
    node.append(...children);
    return node;
  }
  function button(words, act) {
    const made = make("button", "", words);
    made.type = "button";
    made.addEventListener("click", act);
    return made;
  }
  function labelled(id, words, field) {
    const label = make("label", "", words);
    label.htmlFor = field.id = id;
    return [label, field];
  }

  // All vans of a host share one storage, and a browser may refuse it: then nothing is said to be kept.
  const KEY = name => "lockerleaf " + ROOT.pathname + " " + name;
  function read(name, empty) {
    try { return JSON.parse(localStorage.getItem(KEY(name))) || empty; } catch { return empty; }
  }
  function write(name, value) {
    try { localStorage.setItem(KEY(name), JSON.stringify(value)); return true; } catch { return false; }
  }
  const KEPT = "Kept on this phone.", REFUSED = "This browser cannot keep it. Write it on paper.";
  const here = () => (location.href.startsWith(ROOT.href) ? location.href.slice(ROOT.href.length).split(/[#?]/)[0] : "") || "index.html";
  const titled = () => $("h1").textContent.trim().replace(/\s+/g, " ");

  /* --- a note on a page ---------------------------------------------------------------------------- */
  function noting() {
    if (!NOTED.some(name => document.body.classList.contains(name))) return;
    const path = here(), before = read("notes", {})[path];
    const field = make("textarea", ""), said = make("p", "notes__said"), box = make("div", "notes__box");
    said.setAttribute("role", "status");
    field.rows = 4;
    field.value = before ? before.text : "";
    box.append(...labelled("note", "Your note on this page", field), said);
    box.hidden = !before;
    const open = button("Keep a note on this page", () => { box.hidden = false; open.hidden = true; field.focus(); });
    open.hidden = Boolean(before);
    field.addEventListener("input", () => {
      const notes = read("notes", {});
      if (field.value.trim()) notes[path] = { title: titled(), text: field.value };
      else delete notes[path];
      said.textContent = write("notes", notes) ? KEPT : REFUSED;
    });
    const all = make("a", "", "Notes and snags");
    all.href = new URL("snags.html" + (document.body.classList.contains("page--place") ? "?place=" + $("h1 .plate").textContent : ""), ROOT).href;
    const section = make("section", "notes", open, box, make("p", "", all));
    section.setAttribute("aria-label", "Your notes");
    $(".help").before(section);
  }

  noting();
})();
