/* Finding, ticking, one step at a time, keeping. All else on a page works without this file. */
"use strict";
(() => {
  const { root, edition } = document.currentScript.dataset;
  const ROOT = new URL(root || ".", location.href);
  const ON_HOST = /^https?:$/.test(location.protocol);
  const $ = (selector, from = document) => from.querySelector(selector);
  const $$ = (selector, from = document) => [...from.querySelectorAll(selector)];

  function make(name, className, ...children) {
    const node = document.createElement(name);
    if (className) node.className = className;
    node.append(...children);
    return node;
  }
  const inRoot = href => href.startsWith(ROOT.href) ? href.slice(ROOT.href.length).split(/[#?]/)[0] : "";

  // All vans of a host share one storage, and a browser may refuse it.
  const shelf = {
    name: key => "lockerleaf " + ROOT.pathname + " " + key,
    read(key) { try { return JSON.parse(localStorage.getItem(this.name(key))); } catch { return null; } },
    write(key, value) { try { localStorage.setItem(this.name(key), JSON.stringify(value)); } catch { /* refused */ } },
  };
  const visit = {
    read(key) { try { return sessionStorage.getItem(shelf.name(key)) || ""; } catch { return ""; } },
    write(key, value) { try { sessionStorage.setItem(shelf.name(key), value); } catch { /* refused */ } },
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
    // Running text comes by word: the entries it stands in, each as the step from the one before.
    const where = data.where.split(";");
    if (data.words) data.words.split(" ").forEach((word, i) => {
      let number = 0;
      for (const step of where[i].split(",")) stands(word, number += Number(step), OF_TEXT);
    });
    const titles = data.entries.map(entry => new Set(cut(entry[TITLE]).filter(word => !stop.has(word)).map(stem)));
    const phrases = data.entries.map(entry => entry[WORDS].split(",").map(words => cut(words).filter(word => !stop.has(word)).map(stem)).filter(words => words.length));
    const vocabulary = [...index.keys()];
    const groups = data.synonyms.map(group => group.map(words => cut(words).map(stem)));
    const known = new Set([...vocabulary, ...groups.flat(2)]);

    // The known words nearest to one that is mistyped; nothing for a short one or a number.
    function near(word, words) {
      if (word.length < 4 || /\d/.test(word)) return [];
      const limit = word.length > 6 ? 2 : 1;
      return [...words].map(key => [key, apart(word, key, limit)]).filter(pair => pair[1] <= limit).sort((a, b) => a[1] - b[1]);
    }

    const rarity = key => Math.log(1 + data.entries.length / index.get(key).size);

    // What a word of the question may stand for, with how far each is trusted.
    function meanings(word, last) {
      const found = new Map();
      const add = (key, trust) => { if (trust > (found.get(key) || 0)) found.set(key, trust); };
      if (index.has(word)) add(word, 1);
      if (last && word.length > 1) for (const key of vocabulary) if (key.startsWith(word)) add(key, 0.7);
      if (!found.size) for (const [key, distance] of near(word, vocabulary)) add(key, distance === 1 ? 0.6 : 0.4);
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
      const stems = (asked.length ? asked : all).map(stem);
      const extra = alike(stems.map(word => (known.has(word) ? word : (near(word, known)[0] || [word])[0])));
      const scores = new Map(), covered = new Map(), named = new Map();
      stems.forEach((word, i) => {
        const choices = meanings(word, i === stems.length - 1), own = new Set(choices.keys());
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
      const place = data.entries.find(entry => entry[PLATE] === code && entry[PATH] === code + "/index.html");
      if (place) hits = [place, ...hits.filter(entry => entry !== place)];
      return { hits, place, code: /^[A-Z]\d{1,2}$/.test(code) ? code : "" };
    };
  }

  function row(href, title, note, plate) {
    const link = make("a", "row");
    link.href = href;
    if (plate) link.append(make("span", "plate", plate), " ");
    const text = make("span", "row__text", make("span", "row__title", title));
    if (note) text.append(make("span", "row__note", note));
    link.append(text);
    return make("li", "", link);
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
    for (const link of $$(".rail a[href$='#find']")) link.addEventListener("click", () => setTimeout(aim));
    aim();
  }

  /* --- ticking -------------------------------------------------------------------------------- */
  function ticking() {
    const list = $("[data-checks]");
    if (list) checklist(list);
    for (const link of $$(".group--phases .row, .group--related .row")) {
      const ticked = shelf.read("ticks " + inRoot(link.href));
      const note = $(".row__note", link);
      if (note && ticked && ticked.length) note.textContent += ", " + ticked.length + " ticked";
    }
  }

  function checklist(list) {
    const key = "ticks " + inRoot(location.href), boxes = $$("[data-check]", list);
    const line = list.previousElementSibling, reset = list.nextElementSibling;
    const before = new Set(shelf.read(key) || []);
    for (const box of boxes) box.checked = before.has(box.dataset.check);
    const count = () => {
      const left = boxes.filter(box => !box.checked).length;
      line.textContent = left ? left + " of " + boxes.length + " left" : "All " + boxes.length + " done";
      reset.hidden = left === boxes.length;
    };
    const keep = () => {
      shelf.write(key, boxes.filter(box => box.checked).map(box => box.dataset.check));
      count();
    };
    for (const box of boxes) box.addEventListener("change", keep);
    count();
    const clear = $("button", reset);
    clear.addEventListener("click", () => {
      const yes = make("button", "", "Clear all ticks"), no = make("button", "", "Keep them");
      yes.type = no.type = "button";
      const done = () => { reset.replaceChildren(clear); (reset.hidden ? boxes[0] : clear).focus(); };
      yes.addEventListener("click", () => { for (const box of boxes) box.checked = false; keep(); done(); });
      no.addEventListener("click", done);
      reset.replaceChildren(make("span", "", "Clear every tick on this page?"), yes, no);
      yes.focus();
    });
  }

  /* --- one step at a time --------------------------------------------------------------------- */
  function stepping() {
    for (const steps of $$("main > ol.steps")) {
      const isFault = steps.classList.contains("steps--fault");
      if (steps.children.length < (isFault ? 2 : 3) || document.body.classList.contains("page--emergency")) continue;
      const open = make("button", "", isFault ? "Find the fault, one check at a time" : "One step at a time");
      open.type = "button";
      open.addEventListener("click", () => step(steps, open));
      steps.before(make("p", "onebyone", open));
    }
  }

  const isHead = node => /^H[1-6]$/.test(node.tagName);

  // The messages and needs above the steps are a view of their own, before step 1; what follows them is the last.
  // Steps under a heading of their own have the messages that stand above it, too: better once too often.
  function views(steps, isFirst = true) {
    const above = [], below = [];
    for (let node = steps.previousElementSibling; node && !isHead(node) && node.tagName !== "OL"; node = node.previousElementSibling) {
      if (!node.matches(".onebyone, .draft")) above.unshift(node.cloneNode(true));
    }
    if (isFirst && !above.some(node => node.matches(".safety"))) {
      for (let node = steps.previousElementSibling; node; node = node.previousElementSibling) if (node.matches(".safety")) above.unshift(node.cloneNode(true));
    }
    for (let node = steps.nextElementSibling; node && node.tagName === "P"; node = node.nextElementSibling) below.push(node.cloneNode(true));
    const items = [...steps.children].map((item, i, all) => {
      const list = make("ol", "steps", item.cloneNode(true));
      list.start = i + 1;
      return ["Step " + (i + 1) + " of " + all.length, [list]];
    });
    return { above: above.length ? [["Before you start", above]] : [], items, below: below.length ? [["At the end", below]] : [] };
  }

  /* A fault is followed check by check, through all its lists, and ends with a fix, a stop or the dealer. */
  const isTell = node => node.matches("p.note") && /^Tell/.test(node.textContent);
  function faultViews(steps) {
    const lists = [], { above } = views(steps);
    let words = null;
    for (let node = steps; node && !words; node = node.nextElementSibling) {
      if (node.matches("ol.steps--fault")) lists.push(node);
      else if (isTell(node)) words = node;
    }
    const checks = lists.flatMap((list, i) => {
      let head = list.previousElementSibling;
      while (head && !isHead(head) && head.tagName !== "OL") head = head.previousElementSibling;
      const name = lists.length > 1 && head && isHead(head) && head.tagName !== "H1" ? head.textContent + ". " : "";
      const own = views(list, false);
      return [...(i ? own.above : []), ...own.items.map(([count, nodes]) => [name + count, nodes, "check"])];
    });
    const dealer = () => {
      const copy = [...(words ? [words] : []), ...$$(".group--dealer")].map(node => node.cloneNode(true));
      for (const node of copy) for (const named of [node, ...$$("[id]", node)]) named.removeAttribute("id");
      return copy;
    };
    const after = views(lists[lists.length - 1]).below.flatMap(view => view[1]).filter(node => !isTell(node));
    return {
      all: [...above, ...checks],
      fixed: ["Fixed", [make("p", "act", "It works again."), make("p", "more", "Shut, switch on or put back what the checks had you open. All steps shows the ones you did not need."), ...after.filter(node => node.matches(".undo"))]],
      stop: ["Stop here", [make("p", "stop", "Stop here. Do not try again. Call your dealer."), ...after.filter(node => !node.matches(".stop")).map(node => node.cloneNode(true)), ...dealer()]],
      dealer: ["Not fixed: your dealer", [make("p", "act", "That was the last check. Call your dealer and say this."), ...dealer()]],
    };
  }

  function step(steps, opener) {
    const found = steps.classList.contains("steps--fault") ? faultViews(steps) : null, whole = views(steps);
    const all = found ? found.all : [...whole.above, ...whole.items, ...whole.below];
    let at = 0, lock = null, isOver = false;
    const button = (words, act) => { const made = make("button", "", words); made.type = "button"; made.addEventListener("click", act); return made; };
    const place = make("div", ""), count = make("h1", "stepper__count");
    const last = found ? () => end(found.dealer) : () => close();
    const back = button("Back", () => go(isOver ? at : at - 1)), next = button("Next", () => (isOver ? close() : at + 1 < all.length ? go(at + 1) : last()));
    const fixed = button("Fixed", () => end(found.fixed)), stop = button("The check says stop", () => end(found.stop));
    const view = make("section", "stepper", button("All steps", () => close()), count, place, make("div", "stepper__foot", back, fixed, next));
    view.tabIndex = -1;
    view.setAttribute("aria-label", "One step at a time");
    const awake = async () => {
      try { if (navigator.wakeLock && !document.hidden) lock = await navigator.wakeLock.request("screen"); } catch { /* not allowed */ }
    };
    function go(to) {
      at = to;
      isOver = false;
      const [, nodes, kind] = all[at];
      show(all[at], kind === "check" ? "Not fixed" : at + 1 < all.length ? "Next" : "Done");
      fixed.hidden = kind !== "check";
      back.disabled = at === 0;
      if (kind === "check" && nodes.some(node => /Stop here/.test(node.textContent))) place.append(make("p", "", stop));
    }
    function end(result) {
      isOver = true;
      fixed.hidden = true;
      back.disabled = false;
      show(result, "Done");
    }
    function show([words, nodes], onward) {
      count.textContent = words;
      place.replaceChildren(...nodes);
      next.textContent = onward;
      scrollTo(0, 0);
      view.focus({ preventScroll: true });
    }
    function close() {
      document.body.classList.remove("stepping");
      view.remove();
      document.removeEventListener("keydown", key);
      document.removeEventListener("visibilitychange", awake);
      if (lock) lock.release();
      opener.focus();
    }
    function key(event) { if (event.key === "Escape") close(); }
    document.addEventListener("keydown", key);
    document.addEventListener("visibilitychange", awake);
    document.body.classList.add("stepping");
    $("main").prepend(view);
    awake();
    go(0);
  }

  /* --- dates that lie behind, by the clock of the phone ---------------------------------------- */
  function passed() {
    const today = new Date().setHours(0, 0, 0, 0);
    for (const row of $$("tr[data-due]")) {
      const [year, month, day] = row.dataset.due.split("-").map(Number), every = Number(row.dataset.every);
      const after = months => new Date(year, month - 1 + months, Math.min(day, new Date(year, month + months, 0).getDate()));
      if (after(0) >= today) continue;
      let months = every;
      while (every && after(months) < today) months += every;
      const next = every ? " Done since? Then the next is " + after(months).toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" }) + "." : "";
      row.cells[1].append(make("p", "passed", make("strong", "", "That date has passed."), next + " Not done, or not sure? Read beside it what to do, or ring your dealer."));
    }
  }

  /* --- keeping -------------------------------------------------------------------------------- */
  function say(words, isWhole, ...more) {
    const line = $("#ready");
    line.classList.toggle("top__ready--whole", isWhole);
    line.replaceChildren(words, ...more);
  }
  function link(words, href) {
    const made = make("a", "", words);
    made.href = href;
    return made;
  }
  const copyInstead = () => say("This browser cannot keep it. ", false, link("Keep a copy instead.", new URL("index.html#more", ROOT).href));

  // The page in hand stays as it is until it is asked for again.
  function newEdition({ edition: number, changes }) {
    const read = link("Read it now.", location.href);
    read.addEventListener("click", event => { event.preventDefault(); location.reload(); });
    say("Edition " + number + " is ready. ", true, ...(changes ? [link("What changed.", new URL(changes, ROOT).href), " "] : []), read);
  }

  async function keeping() {
    if (!ON_HOST) return say("This copy is on this device.", true);
    const worker = navigator.serviceWorker;
    if (!worker) return copyInstead();
    const had = Boolean(worker.controller);
    let isNewer = false;
    worker.addEventListener("message", ({ data }) => {
      isNewer = isNewer || data.edition > Number(edition);
      if (isNewer && data.type === "loading") return;
      if (isNewer) return newEdition(data);
      if (data.type === "whole") return say("Ready without signal.", true);
      if (data.type === "loading") return say("Loading onto this phone, " + Math.floor(100 * data.have / data.total) + " %. Stay in signal.", false);
      say("Part of this manual is on this phone. Open it in signal to finish.", false);
    });
    worker.addEventListener("controllerchange", () => { isNewer = had; });
    const ask = async () => (await worker.ready).active.postMessage("fill");
    try {
      const kept = await worker.register(new URL("sw.js", ROOT), { scope: ROOT.pathname, updateViaCache: "none" });
      if (!had) say("Loading onto this phone, 0 %. Stay in signal.", false);
      addEventListener("online", ask);
      document.addEventListener("visibilitychange", () => { if (!document.hidden) kept.update().catch(() => {}); });
      await ask();
    } catch {
      copyInstead();
    }
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
  const newer = $("#newer");
  if (newer && ON_HOST) newer.textContent = "Check for a newer edition: " + ROOT.href;
  searching();
  ticking();
  stepping();
  passed();
  hint();
  if (document.readyState === "complete") keeping();
  else addEventListener("load", keeping);
})();
