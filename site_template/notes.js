/* A note on a page, kept in this browser. Pages work without this file; the list of all is in snags.js. */
"use strict";
(() => {
  const { ROOT, $, plain, make, roled, link, button, labelled, read, write, KEPT, REFUSED, inRoot } = self.lockerleafParts;
  const NOTED = ["page--topic", "page--place", "page--checklist", "page--lights", "page--numbers"];

  function noting() {
    if (!NOTED.some(name => document.body.classList.contains(name))) return;
    const path = inRoot(location.href), before = read("notes", {})[path];
    const field = make("textarea", ""), said = roled("status", make("p", "notes__said")), box = make("div", "notes__box");
    field.rows = 4;
    field.value = before ? before.text : "";
    box.append(...labelled("note", "Your note on this page", field), said);
    box.hidden = !before;
    const open = button("Keep a note on this page", () => { box.hidden = false; open.hidden = true; field.focus(); });
    open.hidden = Boolean(before);
    field.addEventListener("input", () => {
      const notes = read("notes", {});
      if (field.value.trim()) notes[path] = { title: plain($("h1")), text: field.value };
      else delete notes[path];
      said.textContent = write("notes", notes) ? KEPT : REFUSED;
    });
    const all = link("Notes and snags", new URL("snags.html" + (document.body.classList.contains("page--place") ? "?place=" + $("h1 .plate").textContent : ""), ROOT).href);
    const section = make("section", "notes", open, box, make("p", "", all));
    section.setAttribute("aria-label", "Your notes");
    $(".help").before(section);
  }

  noting();
})();
