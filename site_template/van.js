/* Finding, ticking, dates, keeping. All else on a page works without this file. */
"use strict";
(() => {
  const { ROOT, $, $$, dated, make, link, button, keyOf, read, write, REFUSED, inRoot, clearing } = self.lockerleafParts;
  const { edition } = document.currentScript.dataset;
  const ON_HOST = /^https?:$/.test(location.protocol);
  // What only this visit needs; a browser may refuse it.
  const visit = {
    read(key) { try { return sessionStorage.getItem(keyOf(key)) || ""; } catch { return ""; } },
    write(key, value) { try { sessionStorage.setItem(keyOf(key), value); } catch { /* refused */ } },
  };

  /* --- finding -------------------------------------------------------------------------------- */
  const cut = text => text.normalize("NFKD").replace(/[\u0300-\u036f'’]/g, "").toLowerCase().match(/[a-z0-9]+/g) || [];

  function stem(word) {
    if (word.length < 4 || /\d/.test(word)) return word;
    let short = word.replace(/ies$/, "y").replace(/([^su])s$/, "$1");
    const cutOff = short.replace(/(?:ing|ed)$/, "");
    if (cutOff !== short && cutOff.length > 2 && /[aeiouy]/.test(cutOff)) short = cutOff.replace(/([^aeiouls])\1$/, "$1");
    return short.length > 4 ? short.replace(/e$/, "") : short;
  }

  // Damerau-Levenshtein with neighbours only; gives up above the limit.
  function apart(a, b, limit) {
    if (Math.abs(a.length - b.length) > limit) return limit + 1;
    let before = [], row = Array.from({ length: b.length + 1 }, (_, i) => i);
    for (let i = 1; i <= a.length; i++) {
      const next = [i];
      for (let j = 1; j <= b.length; j++) {
        next[j] = Math.min(row[j] + 1, next[j - 1] + 1, row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
        if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) next[j] = Math.min(next[j], before[j - 2] + 1);
      }
      if (Math.min(...next) > limit) return limit + 1;
      before = row;
      row = next;
    }
    return row[b.length];
  }

  const [PATH, ANCHOR, TITLE, SECTION, PLATE, WORDS, ANSWER] = [0, 1, 2, 3, 4, 5, 6];
  const WEIGHTS = [[TITLE, 10], [WORDS, 8], [PLATE, 8], [ANSWER, 3], [SECTION, 3]], OF_TEXT = 1;

  function ranker(data) {
    const stop = new Set(data.stop);
    const index = new Map(); // stem -> Map(entry -> weight)
    function stands(word, number, weight) {
      const key = stem(word);
      if (!index.has(key)) index.set(key, new Map());
      const hits = index.get(key);
      hits.set(number, Math.max(hits.get(number) || 0, weight));
    }
    data.entries.forEach((entry, number) => {
      for (const [field, weight] of WEIGHTS) {
        for (const word of cut(entry[field])) if (!stop.has(word)) stands(word, number, weight);
      }
    });
    // Running text comes by word: the entries it stands in, each as the step from the one before, "#" being none.
    const where = data.where.split(" ");
    if (data.words) data.words.split(" ").forEach((word, i) => {
      let number = 0;
      for (const step of where[i]) stands(word, number += step.codePointAt() - 35, OF_TEXT);
    });
    const titles = data.entries.map(entry => new Set(cut(entry[TITLE]).filter(word => !stop.has(word)).map(stem)));
    const phrases = data.entries.map(entry => entry[WORDS].split(",").map(words => cut(words).filter(word => !stop.has(word)).map(stem)).filter(words => words.length));
    const vocabulary = [...index.keys()];
    const groups = data.synonyms.map(group => group.map(words => cut(words).map(stem)));
    const known = new Set([...vocabulary, ...groups.flat(2)]);

    // The known words nearest to one that is mistyped, or nothing for a short one or a number. A slip may lie in what the
    // stem lacks ("toilte"): of words equally near to the stem, those nearest to what was typed are meant.
    function near(word, words, typed) {
      if (word.length < 4 || /\d/.test(word)) return [];
      const limit = word.length > 6 ? 2 : 1, far = limit + 2;
      const found = [...words].map(key => [key, apart(word, key, limit)]).filter(pair => pair[1] <= limit);
      const all = found.map(([key, distance]) => [key, distance, distance + Math.min(apart(typed, key, far), far)]);
      return all.sort((a, b) => a[2] - b[2]);
    }

    const rarity = key => Math.log(1 + data.entries.length / index.get(key).size);

    // What a word of the question may stand for, with how far each is trusted.
    function meanings(word, last, typed) {
      const found = new Map();
      const add = (key, trust) => { if (trust > (found.get(key) || 0)) found.set(key, trust); };
      if (index.has(word)) add(word, 1);
      if (last && word.length > 1) for (const key of vocabulary) if (key.startsWith(word)) add(key, 0.7);
      if (!found.size) {
        const slips = near(word, vocabulary, typed);
        for (const [key, distance, both] of slips) add(key, (distance === 1 ? 0.6 : 0.4) * (both > slips[0][2] ? 0.5 : 1));
      }
      return found;
    }

    function alike(stems) {
      const extra = stems.map(() => new Map());
      for (const group of groups) {
        for (const asked of group) {
          const at = stems.findIndex((_, i) => asked.length && asked.every((word, j) => stems[i + j] === word));
          if (at < 0) continue;
          for (const other of group) {
            if (other === asked) continue;
            for (const word of other) if (!stop.has(word)) for (let j = 0; j < asked.length; j++) extra[at + j].set(word, 0.65 / Math.sqrt(other.length));
          }
        }
      }
      return extra;
    }

    return question => {
      const all = cut(question);
      const code = all.join("").toUpperCase();
      const asked = all.filter(word => !stop.has(word));
      const typed = asked.length ? asked : all, stems = typed.map(stem);
      const extra = alike(stems.map((word, i) => (known.has(word) ? word : (near(word, known, typed[i])[0] || [word])[0])));
      const scores = new Map(), covered = new Map(), named = new Map();
      stems.forEach((word, i) => {
        const choices = meanings(word, i === stems.length - 1, typed[i]), own = new Set(choices.keys());
        for (const [key, trust] of extra[i]) if (index.has(key) && trust > (choices.get(key) || 0)) choices.set(key, trust);
        const best = new Map(), inTitle = new Set();
        for (const [key, trust] of choices) {
          const hits = index.get(key);
          // A rarer word that means the same weighs no more than the word that was asked.
          const rare = own.has(key) || !index.has(word) ? rarity(key) : Math.min(rarity(key), rarity(word));
          for (const [number, weight] of hits) {
            best.set(number, Math.max(best.get(number) || 0, trust * weight * rare));
            if (own.has(key) && titles[number].has(key)) inTitle.add(number);
          }
        }
        for (const number of inTitle) named.set(number, (named.get(number) || 0) + 1);
        for (const [number, score] of best) {
          scores.set(number, (scores.get(number) || 0) + score);
          covered.set(number, (covered.get(number) || 0) + 1);
        }
      });
      // More of the question covered, more of the title asked for, and a phrase of the page's own all count.
      const ranked = [...scores].map(([number, score]) => {
        const share = covered.get(number) / stems.length, title = (named.get(number) || 0) / Math.max(titles[number].size, 1);
        const said = Math.max(0, ...phrases[number].filter(words => words.every(word => stems.includes(word))).map(words => words.length));
        return [number, score * share ** 1.5 * (1 + 0.6 * Math.min(title, 1)) * (1 + 0.5 * said / stems.length)];
      });
      ranked.sort((a, b) => b[1] - a[1] || a[0] - b[0]);
      const least = ranked.length ? ranked[0][1] / 12 : 0;
      let hits = ranked.filter(hit => hit[1] >= least).slice(0, 12).map(hit => data.entries[hit[0]]);
      const placed = plate => data.entries.find(entry => entry[PLATE] === plate && entry[PATH] === plate + "/index.html");
      const place = placed(code), first = place || all.map(word => placed(word.toUpperCase())).find(Boolean);
      if (first) hits = [first, ...hits.filter(entry => entry !== first)];
      return { hits, place, code: /^[A-Z]\d{1,2}$/.test(code) ? code : "" };
    };
  }

  function row(href, title, note, plate) {
    const hit = link("", href, "row");
    if (plate) hit.append(make("span", "plate", plate), " ");
    const text = make("span", "row__text", make("span", "row__title", title));
    if (note) text.append(make("span", "row__note", note));
    hit.append(text);
    return make("li", "", hit);
  }

  function nothing(question, answer, data) {
    const rows = [];
    if (data.lights) rows.push(row(new URL(data.lights, ROOT).href, "Lights and sounds", "Every lamp, message and beep of this van"));
    const dealer = $(".group--dealer .call, .help .call");
    if (dealer) rows.push(row(dealer.href, "Ring your dealer: " + dealer.textContent, ""));
    const words = answer.code
      ? "This van has no place " + answer.code + ". A label of another van opens another manual."
      : "No page has '" + question + "'. Try what you see: a colour, a sound, a part.";
    return { words, rows };
  }

  function searching() {
    const field = $("#find"), data = self.lockerleaf;
    if (!field || !data) return;
    const list = $("#found"), count = $("#found-count");
    let rank = null;
    const show = () => {
      const question = field.value.trim();
      visit.write("question", question);
      if (!question) { list.replaceChildren(); count.textContent = ""; return; }
      rank = rank || ranker(data);
      const answer = rank(question);
      const { hits } = answer;
      if (hits.length && !(answer.code && !answer.place)) {
        count.textContent = hits.length === 1 ? "1 page" : hits.length + " pages";
        list.replaceChildren(...hits.map(hit => row(
          new URL(hit[PATH] + (hit[ANCHOR] ? "#" + hit[ANCHOR] : ""), ROOT).href, hit[TITLE], [hit[SECTION], hit[ANSWER]].filter(Boolean).join(": "), hit[PLATE])));
      } else {
        const { words, rows } = nothing(question, answer, data);
        count.textContent = words;
        list.replaceChildren(...rows);
      }
      return answer;
    };
    field.addEventListener("input", show);
    field.form.addEventListener("submit", event => {
      event.preventDefault();
      const answer = show();
      const first = $("a", list);
      if (answer && answer.place) location.href = first.href;
      else if (first) first.focus();
    });
    // Arrows go through the hits; Escape comes back to the field, and empties it.
    field.form.addEventListener("keydown", event => {
      const hits = $$("a", list), at = hits.indexOf(document.activeElement);
      if (event.key === "ArrowDown" && at + 1 < hits.length) hits[at + 1].focus();
      else if (event.key === "ArrowUp" && at >= 0) (hits[at - 1] || field).focus();
      else if (event.key === "Escape" && at >= 0) field.focus();
      else if (event.key === "Escape" && field.value) { field.value = ""; show(); }
      else return;
      event.preventDefault();
    });
    const asked = new URLSearchParams(location.search).get("q");
    const [arrival] = performance.getEntriesByType("navigation");
    if (asked || (arrival && arrival.type === "back_forward")) {
      field.value = asked || visit.read("question");
      show();
    }
    const aim = () => { if (location.hash === "#find") field.focus(); };
    addEventListener("hashchange", aim);
    for (const one of $$(".rail a[href$='#find']")) one.addEventListener("click", () => setTimeout(aim));
    aim();
  }

  /* --- ticking -------------------------------------------------------------------------------- */
  function ticking() {
    const list = $("[data-checks]");
    if (list) checklist(list);
    for (const row of $$(".group--phases .row, .group--related .row")) {
      const ticked = read("ticks " + inRoot(row.href), []);
      const note = $(".row__note", row);
      if (note && ticked.length) note.textContent += ", " + ticked.length + " ticked";
    }
  }

  function checklist(list) {
    const key = "ticks " + inRoot(location.href), boxes = $$("[data-check]", list);
    const line = list.previousElementSibling, reset = list.nextElementSibling;
    const before = new Set(read(key, []));
    for (const box of boxes) box.checked = before.has(box.dataset.check);
    const count = () => {
      const left = boxes.filter(box => !box.checked).length;
      line.textContent = left ? left + " of " + boxes.length + " left" : "All " + boxes.length + " done";
      reset.hidden = left === boxes.length;
    };
    const keep = () => {
      const isKept = write(key, boxes.filter(box => box.checked).map(box => box.dataset.check));
      count();
      if (!isKept) line.textContent += ". " + REFUSED;
    };
    const clear = $("button", reset);
    for (const box of boxes) box.addEventListener("change", () => { reset.replaceChildren(clear); keep(); });
    count();
    clear.addEventListener("click", () => clearing(clear, reset, ["Clear every tick on this page?", "Clear all ticks", "All ticks are cleared."], () => {
      const ticked = boxes.filter(box => box.checked);
      const set = isTicked => { for (const box of ticked) box.checked = isTicked; keep(); };
      set(false);
      return () => set(true);
    }));
  }

  /* --- dates that lie behind, by the clock of the phone ---------------------------------------- */
  function passed() {
    for (const table of $$("table")) {
      const behind = $$("tr[data-due]", table).map(behindBy).filter(Boolean);
      if (!behind.length) continue;
      const words = make("p", "", make("strong", "", "That date has passed for what follows."), " Done since? Then wait for the next date. Not done, or not sure? Do as it says, or ring your dealer.");
      (table.closest(".scroll") || table).before(make("div", "passed", words, make("ul", "", ...behind)));
    }
  }

  // A row of a date before today: what it says to do, and when it is due again.
  function behindBy(row) {
    const [year, month, day] = row.dataset.due.split("-").map(Number), every = Number(row.dataset.every);
    const after = months => new Date(year, month - 1 + months, Math.min(day, new Date(year, month + months, 0).getDate()));
    const today = new Date().setHours(0, 0, 0, 0);
    if (after(0) >= today) return null;
    let months = every;
    while (every && after(months) < today) months += every;
    const [what, , why] = [...row.cells].map(cell => cell.textContent), todo = why.split(" From: ")[0]; // its source is read in the table
    row.cells[1].append(make("strong", "passed__mark", "That date has passed."));
    return make("li", "", make("strong", "", what + ":"), " " + dated(after(0)) + ". " + todo + (every ? " Next: " + dated(after(months)) + "." : ""));
  }

  /* --- keeping -------------------------------------------------------------------------------- */
  function say(words, isWhole, ...more) {
    const line = $("#ready");
    line.classList.toggle("top__ready--whole", isWhole);
    line.replaceChildren(words, ...more);
  }
  const copyInstead = () => say("This browser cannot keep it. ", false, link("Keep a copy instead.", new URL("index.html#more", ROOT).href));

  // The page in hand stays as it is until it is asked for again.
  function newEdition({ edition: number, changes }) {
    const again = link("Read it now.", location.href);
    again.addEventListener("click", event => { event.preventDefault(); location.reload(); });
    say("Edition " + number + " is ready. ", true, ...(changes ? [link("What changed.", new URL(changes, ROOT).href), " "] : []), again);
  }

  async function keeping() {
    if (!ON_HOST) return say("This copy is on this device.", true);
    const worker = navigator.serviceWorker;
    if (!worker) return copyInstead();
    const had = Boolean(worker.controller);
    let isNewer = false, isOver = false; // over: nothing of a first visit is kept, whatever is still heard of its progress
    worker.addEventListener("message", ({ data }) => {
      isNewer = isNewer || data.edition > Number(edition);
      if ((isNewer || isOver) && data.type === "loading") return;
      if (isNewer) return newEdition(data);
      if (data.type === "whole") return say("Ready without signal.", true);
      if (data.type === "loading") return say("Loading onto this phone, " + Math.floor(100 * data.have / data.total) + " %. Stay in signal.", false);
      say("Part of this manual is on this phone. Open it in signal to finish.", false);
    });
    worker.addEventListener("controllerchange", () => { isNewer = had; });
    function notYet() {
      isOver = true;
      say("Not on this phone yet. Open it in signal.", false);
    }
    const ask = async () => (await worker.ready).active.postMessage("fill");
    async function take() {
      isOver = false;
      try {
        const kept = await worker.register(new URL("sw.js", ROOT), { scope: ROOT.pathname, updateViaCache: "none" });
        if (!had) say("Loading onto this phone, 0 %. Stay in signal.", false);
        const first = kept.active || kept.waiting || kept.installing; // none, or one that is redundant: it failed already
        const isGone = () => !kept.active && (!first || first.state === "redundant");
        if (isGone()) return notYet();
        first.addEventListener("statechange", () => { if (isGone()) notYet(); });
        ask();
      } catch (error) {
        if (error.name === "SecurityError") copyInstead();
        else notYet();
      }
    }
    addEventListener("online", take);
    document.addEventListener("visibilitychange", async () => {
      if (document.hidden) return;
      ask(); // a phone that slept may have stopped on the way
      (await worker.getRegistration(ROOT.pathname))?.update().catch(() => {});
    });
    await take();
    if (matchMedia("(display-mode: standalone)").matches && navigator.storage && navigator.storage.persist) navigator.storage.persist();
  }

  // Some phones clear stored pages after a week unless the manual is on the home screen.
  function hint() {
    const clears = /iPad|iPhone|iPod/.test(navigator.userAgent) || (navigator.platform === "MacIntel" && navigator.maxTouchPoints > 1);
    if (!ON_HOST || !clears || navigator.standalone || visit.read("hint")) return;
    visit.write("hint", "shown");
    const words = "Phones can clear this after a week. Add it to your home screen, then open it there once in signal.";
    $(".help").before(make("p", "keep", words));
  }

  // Room for the bar that some phones draw over the foot; the HTML checker does not know env() in a style sheet.
  document.documentElement.style.setProperty("--safe", "env(safe-area-inset-bottom, 0px)");
  // Of the folder that was unpacked, the zip itself is no part.
  if (!ON_HOST) for (const zip of $$(".row[href$='.zip']")) zip.parentNode.remove();
  const newer = $("#newer");
  if (newer && ON_HOST) newer.textContent = "Check for a newer edition: " + ROOT.href;
  addEventListener("beforeprint", () => { for (const one of $$("details")) one.open = true; });
  searching();
  ticking();
  passed();
  hint();
  if (document.readyState === "complete") keeping();
  else addEventListener("load", keeping);
})();
