/* What the other scripts share: parts of a page, and what this browser keeps of a van. It goes before them. */
"use strict";
(() => {
  const { root } = document.currentScript.dataset;
  const ROOT = new URL(root || ".", location.href);
  const $ = (selector, from = document) => from.querySelector(selector);
  const $$ = (selector, from = document) => [...from.querySelectorAll(selector)];
  const plain = node => node.textContent.trim().replace(/\s+/g, " ");
  const dated = date => date.toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });

  /* --- parts of a page ------------------------------------------------------------------------------ */
  function make(name, className, ...children) {
    const node = document.createElement(name);
    if (className) node.className = className;
    node.append(...children);
    return node;
  }
  function roled(role, node) {
    node.setAttribute("role", role);
    return node;
  }
  function link(words, href, className = "") {
    const made = make("a", className, words);
    made.href = href;
    return made;
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

  /* --- what is kept --------------------------------------------------------------------------------- */
  // All vans of a host share one storage, and a browser may refuse it: then nothing is said to be kept.
  const keyOf = name => "lockerleaf " + ROOT.pathname + " " + name;
  function read(name, empty) {
    try { return JSON.parse(localStorage.getItem(keyOf(name))) || empty; } catch { return empty; }
  }
  function write(name, value) {
    try { localStorage.setItem(keyOf(name), JSON.stringify(value)); return true; } catch { return false; }
  }
  const KEPT = "Kept on this phone.", REFUSED = "This browser cannot keep it. Write it on paper.";
  // The page an address leads to, by the name it has in links: a label leads to "A1/", and some hosts take ".html" off.
  function inRoot(href) {
    if (!href.startsWith(ROOT.href)) return "";
    const path = href.slice(ROOT.href.length).split(/[#?]/)[0];
    return path.endsWith(".html") ? path : path + (/[^/]$/.test(path) ? ".html" : "index.html");
  }

  // Cleared on purpose: it asks once, and what was cleared can be brought back until the page is left.
  // ``opener`` is the button in ``box`` that was pressed; ``clear`` returns what brings all back.
  function clearing(opener, box, [question, yes, over], clear) {
    const end = () => { box.replaceChildren(opener); opener.focus(); };
    const sure = button(yes, () => {
      const restore = clear();
      const back = button("Bring them back", () => { restore(); end(); });
      box.hidden = false;
      box.replaceChildren(make("span", "", over), back);
      back.focus();
    });
    box.replaceChildren(make("span", "", question), sure, button("Keep them", end));
    sure.focus();
  }

  self.lockerleafParts = Object.freeze({
    ROOT, $, $$, plain, dated, make, roled, link, button, labelled, keyOf, read, write, KEPT, REFUSED, inRoot, clearing,
  });
})();
