/* Notes on pages and snags by place, kept in this browser until the owner sends them. Pages work without this file. */
"use strict";
(() => {
  const { root } = document.currentScript.dataset;
  const ROOT = new URL(root || ".", location.href);
  const NOTED = ["page--topic", "page--place", "page--checklist", "page--lights", "page--numbers"];
  const LONGEST = 1800; // characters of a mail link that every mail program takes
  const $ = (selector, from = document) => from.querySelector(selector);
  const $$ = (selector, from = document) => [...from.querySelectorAll(selector)];

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

  /* --- the list ------------------------------------------------------------------------------------ */
  const van = () => ($(".top__van").textContent.trim() + ". " + $(".top__edition").textContent.trim()).replace(/\s+/g, " ");

  // What is sent: van and edition, snags by place, notes by page.
  function letter(snags, notes) {
    const open = snags.filter(snag => !snag.done), done = snags.filter(snag => snag.done);
    const lines = list => list.map(snag => "- " + snag.place + ": " + snag.text + " (" + snag.day + ")");
    const pages = Object.entries(notes).map(([path, note]) => "- " + note.title + " (" + path + "): " + note.text);
    const parts = [["Snags", lines(open)], ["Put right", lines(done)], ["Notes", pages]].filter(part => part[1].length);
    return [van(), ...parts.map(([title, found]) => title + "\n" + found.join("\n"))].join("\n\n") + "\n";
  }

  function listing() {
    const group = $(".group--snags");
    if (!group) return;
    const places = $$(".row", group).map(row => row.textContent.trim().replace(/\s+/g, " "));
    const where = make("select", "", ...[...places, "Elsewhere"].map(place => make("option", "", place)));
    const asked = new URLSearchParams(location.search);
    where.value = places.find(place => place.split(" ")[0] === asked.get("place")) || where.options[asked.has("place") ? where.options.length - 1 : 0].value;
    const what = make("textarea", ""), said = make("p", "notes__said"), list = make("div", ""), send = make("div", "notes__send");
    what.rows = 3;
    what.value = asked.get("what") || "";
    said.setAttribute("role", "status");
    const keep = snags => { said.textContent = write("snags", snags) ? KEPT : REFUSED; show(snags); };
    const add = button("Add to the list", () => {
      const text = what.value.trim().replace(/\s+/g, " ");
      if (!text) { said.textContent = "Say what is wrong first."; what.focus(); return; }
      keep([...read("snags", []), { place: where.value, text, day: new Date().toISOString().slice(0, 10), done: false }]);
      what.value = "";
      what.focus();
    });
    const form = make("div", "notes__form", ...labelled("snag-place", "Where", where), ...labelled("snag-what", "What is wrong", what), make("p", "", add), said);

    function row(snag, at, snags) {
      const box = make("input", "");
      box.type = "checkbox";
      box.id = "snag-" + at;
      box.checked = snag.done;
      box.addEventListener("change", () => { keep(snags.map((one, i) => (i === at ? { ...one, done: box.checked } : one))); $("#" + box.id).focus(); });
      const away = button("Remove", () => { keep(snags.filter((_, i) => i !== at)); add.focus(); });
      away.setAttribute("aria-label", "Remove: " + snag.text);
      const words = make("span", "", snag.text + " ", make("span", "row__note", (snag.done ? "Put right. " : "") + "Noted on " + snag.day + "."));
      return make("li", "", make("label", "", box, " ", words), away);
    }

    function show(snags) {
      const notes = read("notes", {}), parts = [], bare = [];
      for (const place of [...places, "Elsewhere", ...snags.map(snag => snag.place)]) {
        if (bare.includes(place)) continue;
        bare.push(place);
        const found = snags.map((snag, at) => [snag, at]).filter(([snag]) => snag.place === place);
        if (found.length) parts.push(make("h3", "", place), roled(make("ul", "checks", ...found.map(([snag, at]) => row(snag, at, snags)))));
      }
      const pages = Object.entries(notes).map(([path, note]) => {
        const link = make("a", "", note.title);
        link.href = new URL(path, ROOT).href;
        return make("li", "", link, make("span", "row__note", note.text));
      });
      list.replaceChildren(
        make("h2", "", "Snags"), ...(parts.length ? parts : [make("p", "", "No snag is noted.")]),
        make("h2", "", "Notes on pages"), pages.length ? roled(make("ul", "notes__pages", ...pages)) : make("p", "", "No page has a note."));
      const text = letter(snags, notes), mail = "mailto:?subject=" + encodeURIComponent("Snags: " + van().split(".")[0]) + "&body=" + encodeURIComponent(text.replace(/\n/g, "\r\n"));
      const link = make("a", "", "Send the list by mail");
      link.href = mail;
      const save = button("Save the list as a text file", () => {
        const file = make("a", "");
        file.href = URL.createObjectURL(new Blob([text], { type: "text/plain;charset=utf-8" }));
        file.download = "snags.txt";
        file.click();
        setTimeout(() => URL.revokeObjectURL(file.href), 10000);
      });
      const any = snags.length || pages.length;
      send.replaceChildren(...(any ? [make("h2", "", "Send them"), ...(mail.length <= LONGEST ? [make("p", "", link)] : [make("p", "", "The list is too long for a mail link. Save it and attach it.")]), make("p", "", save)] : []));
    }
    const roled = node => { node.setAttribute("role", "list"); return node; };
    group.before(make("p", "", "They stay on this phone. Nothing is sent until you send it."), form, list, send);
    show(read("snags", []));
  }

  noting();
  listing();
})();
