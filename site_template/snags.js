/* All notes and the list of snags by place: kept in this browser until the owner sends or clears them. */
"use strict";
(() => {
  const { ROOT, $, $$, plain, dated, make, roled, link, button, labelled, read, write, KEPT, REFUSED, clearing } = self.lockerleafParts;
  const OF = "lockerleaf notes", LONGEST = 1800; // characters of a mail link that every mail program takes

  // The day where the owner is, not in Greenwich.
  function today() {
    const now = new Date();
    now.setMinutes(now.getMinutes() - now.getTimezoneOffset());
    return now.toISOString().slice(0, 10);
  }
  const shown = day => dated(new Date(day + "T12:00"));

  // Both stand in the top line of every page.
  const van = () => plain($(".top__van")) + ". " + plain($(".top__edition"));
  const tail = () => $(".top__tail").textContent.trim();

  function download(name, text) {
    const file = link("", URL.createObjectURL(new Blob([text], { type: "text/plain;charset=utf-8" })));
    file.download = name;
    file.click();
    setTimeout(() => URL.revokeObjectURL(file.href), 10000);
  }

  // What a saved copy holds, or null: a file may hold anything, and a path of it becomes a link.
  function taken(text) {
    try {
      const { of, van: whose, snags, notes } = JSON.parse(text), isText = value => typeof value === "string" && value.length < 10000;
      if (of !== OF || whose !== tail()) return null;
      return {
        snags: snags.filter(one => [one.place, one.text, one.day].every(isText)).map(({ place, text, day, done }) => ({ place, text, day, done: done === true })),
        notes: Object.fromEntries(Object.entries(notes).filter(([path, note]) => /^[\w-]+(\/index)?\.html$/.test(path) && isText(note.title) && isText(note.text)).map(([path, { title, text }]) => [path, { title, text }])),
      };
    } catch { return null; }
  }

  // What is sent: van and edition, snags by place, notes by page.
  function letter(snags, notes) {
    const open = snags.filter(snag => !snag.done), done = snags.filter(snag => snag.done);
    const lines = list => list.map(snag => "- " + snag.place + ": " + snag.text + " (" + shown(snag.day) + ")");
    const pages = Object.entries(notes).map(([path, note]) => "- " + note.title + " (" + path + "): " + note.text);
    const parts = [["Snags", lines(open)], ["Put right", lines(done)], ["Notes", pages]].filter(part => part[1].length);
    return [van(), ...parts.map(([title, found]) => title + "\n" + found.join("\n"))].join("\n\n") + "\n";
  }

  function listing() {
    const group = $(".group--snags");
    const places = $$(".row", group).map(plain);
    const where = make("select", "", ...[...places, "Elsewhere"].map(place => make("option", "", place)));
    const asked = new URLSearchParams(location.search);
    where.value = places.find(place => place.split(" ")[0] === asked.get("place")) || where.options[asked.has("place") ? where.options.length - 1 : 0].value;
    const what = make("textarea", ""), said = roled("status", make("p", "notes__said")), list = make("div", ""), send = make("div", "notes__send"), clear = make("div", "reset");
    what.rows = 3;
    what.value = asked.get("what") || "";
    const keep = snags => { said.textContent = write("snags", snags) ? KEPT : REFUSED; show(snags); };
    const add = button("Add to the list", () => {
      const text = what.value.trim().replace(/\s+/g, " ");
      if (!text) { said.textContent = "Say what is wrong first."; what.focus(); return; }
      keep([...read("snags", []), { place: where.value, text, day: today(), done: false }]);
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
      const words = make("span", "", snag.text + " ", make("span", "row__note", (snag.done ? "Put right. " : "") + "Noted on " + shown(snag.day) + "."));
      return make("li", "", make("label", "", box, " ", words), away);
    }

    function show(snags) {
      const notes = read("notes", {}), parts = [], bare = [];
      for (const place of [...places, "Elsewhere", ...snags.map(snag => snag.place)]) {
        if (bare.includes(place)) continue;
        bare.push(place);
        const found = snags.map((snag, at) => [snag, at]).filter(([snag]) => snag.place === place);
        if (found.length) parts.push(make("h3", "", place), roled("list", make("ul", "checks", ...found.map(([snag, at]) => row(snag, at, snags)))));
      }
      const pages = Object.entries(notes).map(([path, note]) => make("li", "", link(note.title, new URL(path, ROOT).href), make("span", "row__note", note.text)));
      list.replaceChildren(
        make("h2", "", "Snags"), ...(parts.length ? parts : [make("p", "", "No snag is noted.")]),
        make("h2", "", "Notes on pages"), pages.length ? roled("list", make("ul", "notes__pages", ...pages)) : make("p", "", "No page has a note."));
      const text = letter(snags, notes), mail = "mailto:?subject=" + encodeURIComponent("Snags: " + van().split(".")[0]) + "&body=" + encodeURIComponent(text.replace(/\n/g, "\r\n"));
      const whole = JSON.stringify({ of: OF, van: tail(), snags, notes }, null, 1);
      const sendable = [
        mail.length <= LONGEST ? make("p", "", link("Send the list by mail", mail)) : make("p", "", "The list is too long for a mail link. Save it and attach it."),
        make("p", "", button("Save the list as a text file", () => download("snags.txt", text))),
        make("p", "", button("Save a copy for another phone", () => download("notes-copy.json", whole))),
      ];
      const any = snags.length || pages.length;
      send.replaceChildren(...(any ? [make("h2", "", "Send them"), ...sendable] : []));
      clear.hidden = !any;
      clear.replaceChildren(first);
    }

    // A copy that was saved here or on another phone is added to what is here; nothing here is lost.
    const copy = make("input", "");
    copy.type = "file";
    copy.accept = ".json,application/json";
    copy.addEventListener("change", async () => {
      const found = taken(await copy.files[0].text());
      copy.value = "";
      if (!found) { heard.textContent = "That file holds no notes of this van."; return; }
      const notes = read("notes", {});
      for (const [path, note] of Object.entries(found.notes)) {
        const own = notes[path];
        notes[path] = !own || note.text.includes(own.text) ? note : own.text.includes(note.text) ? own : { ...own, text: own.text + "\n" + note.text };
      }
      const snags = read("snags", []), isHere = one => snags.some(own => own.place === one.place && own.text === one.text && own.day === one.day);
      const kept = write("notes", notes) && write("snags", [...snags, ...found.snags.filter(one => !isHere(one))]);
      heard.textContent = kept ? "Read: " + found.snags.length + " on the list of snags, " + Object.keys(found.notes).length + " notes on pages." : REFUSED;
      show(read("snags", []));
    });
    const heard = roled("status", make("p", "notes__said"));
    const reading = make("div", "notes__form", make("h2", "", "From another phone"), ...labelled("notes-copy", "Read a copy that was saved there", copy), heard);

    const first = button("Clear all notes and snags", () => clearing(first, clear, ["Clear every note and snag of this van?", "Clear all", "All notes and snags are cleared."], () => {
      const before = { snags: read("snags", []), notes: read("notes", {}) };
      const set = ({ snags, notes }) => { write("notes", notes); write("snags", snags); show(snags); };
      set({ snags: [], notes: {} });
      return () => set(before);
    }));
    group.before(make("p", "", "They stay on this phone. Nothing is sent until you send it."), form, list, send, reading, clear);
    show(read("snags", []));
  }

  listing();
})();
