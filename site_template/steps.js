/* One step, or one check of a fault, at a time. Without this file steps and checks are plain lists. */
"use strict";
(() => {
  const { ROOT, $, $$, plain, make, link, button } = self.lockerleafParts;
  const isHead = node => /^H[1-6]$/.test(node.tagName);

  // A copy beside its original: no id may stand twice.
  function copy(node) {
    const made = node.cloneNode(true);
    for (const named of [made, ...$$("[id]", made)]) named.removeAttribute("id");
    return made;
  }
  const copies = nodes => nodes.map(copy);

  /* --- what is shown, view by view ---------------------------------------------------------------- */
  // The messages and needs above the steps are a view of their own, before step 1; what follows them is the last.
  // Steps under a heading of their own have the messages that stand above it, too: better once too often.
  function views(steps, isFirst = true) {
    const above = [], below = [];
    for (let node = steps.previousElementSibling; node && !isHead(node) && node.tagName !== "OL"; node = node.previousElementSibling) {
      if (!node.matches(".onebyone, .draft")) above.unshift(copy(node));
    }
    if (isFirst && !above.some(node => node.matches(".safety"))) {
      for (let node = steps.previousElementSibling; node; node = node.previousElementSibling) if (node.matches(".safety")) above.unshift(copy(node));
    }
    for (let node = steps.nextElementSibling; node && node.tagName === "P"; node = node.nextElementSibling) below.push(copy(node));
    const items = [...steps.children].map((item, i, all) => {
      const list = make("ol", "steps", copy(item));
      list.start = i + 1;
      return { id: String(i + 1), title: "Step " + (i + 1) + " of " + all.length, nodes: [list] };
    });
    return { above: above.length ? [{ id: "start", title: "Before you start", nodes: above }] : [], items, below: below.length ? [{ id: "end", title: "At the end", nodes: below }] : [] };
  }

  function headOf(steps) {
    let head = steps.previousElementSibling;
    while (head && !isHead(head) && head.tagName !== "OL") head = head.previousElementSibling;
    return head && isHead(head) ? head : null;
  }

  /* A fault is followed check by check, through all its lists, and ends with a fix, a stop or the dealer. */
  const isTell = node => node.matches("p.note") && /^Tell/.test(node.textContent);
  function faultViews(steps) {
    const lists = [], { above } = views(steps);
    let tell = null;
    for (let node = steps; node && !tell; node = node.nextElementSibling) {
      if (node.matches("ol.steps--fault")) lists.push(node);
      else if (isTell(node)) tell = node;
    }
    const checks = lists.flatMap((list, i) => {
      const head = headOf(list), own = views(list, false);
      const name = lists.length > 1 && head && head.tagName !== "H1" ? head.textContent + ". " : "";
      return [...(i ? own.above : []), ...own.items.map(item => ({ ...item, title: name + item.title, isCheck: true }))];
    });
    checks.forEach((view, i) => { view.id = String(i + 1); });
    const after = views(lists[lists.length - 1]).below.flatMap(view => view.nodes).filter(node => !isTell(node));
    const dealer = at => [...copies($$(".group--dealer")), ...toSay(steps, checks, at), ...copies(tell ? [tell] : []), snag(steps)];
    return {
      all: [...above, ...checks],
      fixed: () => ({ title: "Fixed", nodes: [make("p", "act", "It works again."), make("p", "more", "Shut, switch on or put back what the checks had you open. All steps shows the ones you did not need."), ...copies(after.filter(node => node.matches(".undo")))] }),
      stop: at => ({ title: "Stop here", nodes: [make("p", "stop", "Stop here. Do not try again. Call your dealer."), ...copies(after.filter(node => !node.matches(".stop"))), ...dealer(at)] }),
      dealer: () => ({ title: "Not fixed: your dealer", nodes: [make("p", "act", "That was the last check. Call your dealer and say this."), ...dealer(null)] }),
    };
  }

  /* --- the words to say --------------------------------------------------------------------------- */
  const code = () => ($("h1 .plate") ? plain($("h1 .plate")) : "");
  function titleOf(steps) {
    const topic = headOf(steps), whole = topic && topic.tagName !== "H1" ? topic : $("main h1:not(.stepper__count)");
    return plain(whole).slice(whole.contains($("h1 .plate")) ? code().length : 0).trim();
  }

  // What is wrong, where, what was seen, and how far the checks went; the van stands with the dealer.
  function toSay(steps, checks, at) {
    const place = $$("main a.place").find(one => plain($(".plate", one)) === code());
    const where = place ? plain(place) : code();
    const lead = steps.previousElementSibling && $$("main > p.lead").filter(node => node.compareDocumentPosition(steps) & Node.DOCUMENT_POSITION_FOLLOWING).pop();
    const all = checks.filter(view => view.isCheck);
    const lines = [["What", titleOf(steps)], ["Where", where], ["", lead ? plain(lead) : ""],
      at ? ["Stopped at", at.title + ": " + plain($(".act", at.nodes[0]))] : ["Checks", "all " + all.length + " done"]];
    return [make("ul", "say", ...lines.filter(line => line[1]).map(([name, words]) => make("li", "", ...(name ? [make("strong", "", name + ":"), " "] : []), words)))];
  }

  function snag(steps) {
    const asked = new URLSearchParams({ place: code(), what: titleOf(steps) });
    return make("p", "", link("Note it on your list of snags", new URL("snags.html?" + asked, ROOT).href));
  }

  /* --- the view ------------------------------------------------------------------------------------ */
  // The screen stays on where the browser allows it; a phone takes the lock back by itself when the page is hidden.
  function keptAwake() {
    let lock = null, isOver = false;
    async function ask() {
      if (!navigator.wakeLock || document.hidden || (lock && !lock.released)) return;
      try {
        const got = await navigator.wakeLock.request("screen");
        if (isOver) got.release();
        else lock = got;
      } catch { /* not allowed */ }
    }
    document.addEventListener("visibilitychange", ask);
    ask();
    return () => {
      isOver = true;
      document.removeEventListener("visibilitychange", ask);
      if (lock) lock.release();
    };
  }

  // Each view has an address, and the phone's own Back goes back one step; ``prefix`` names the list of steps.
  function open(steps, opener, prefix, wanted = "") {
    const found = steps.classList.contains("steps--fault") ? faultViews(steps) : null, whole = views(steps);
    const all = found ? found.all : [...whole.above, ...whole.items, ...whole.below];
    const bare = location.href.split("#")[0], before = wanted ? bare : location.href;
    const address = id => bare + "#" + prefix + id;
    const [id, end = ""] = wanted.split("-").reverse();
    let at = Math.max(0, all.findIndex(view => view.id === id)), isOver = false;
    const place = make("div", ""), count = make("h1", "stepper__count");
    const back = button("Back", () => goBack()), next = button("Next", () => (isOver ? close() : at + 1 < all.length ? go(at + 1) : found ? finish("dealer") : close()));
    const fixed = button("Fixed", () => finish("fixed")), stop = button("The check says stop", () => finish("stop"));
    const emergency = link("Emergency", new URL("index.html#emergency", ROOT).href, "stepper__emergency");
    const top = make("div", "stepper__top", button("All steps", () => close()), emergency);
    const view = make("section", "stepper", top, make("p", "stepper__title", titleOf(steps)), count, place, make("div", "stepper__foot", back, fixed, next));
    view.tabIndex = -1;
    view.setAttribute("aria-label", "One step at a time");

    function record(how, id) {
      try { history[how]({ stepper: prefix }, "", address(id)); } catch { /* a browser that refuses still steps */ }
    }
    function go(to) {
      at = to;
      isOver = false;
      const { nodes, isCheck } = all[at];
      show(all[at], isCheck ? "Not fixed" : at + 1 < all.length ? "Next" : "Done");
      fixed.hidden = !isCheck;
      back.disabled = at === 0;
      if (isCheck && nodes.some(node => /Stop here/.test(node.textContent))) place.append(make("p", "", stop));
    }
    // An end has an address, too: whoever rings the dealer finds the words again, though the phone dropped the page.
    function finish(how) {
      isOver = true;
      fixed.hidden = true;
      back.disabled = false;
      show({ ...found[how](all[at]), id: how + "-" + all[at].id }, "Done");
    }
    function show({ id, title, nodes }, onward) {
      record("replaceState", id);
      count.textContent = title;
      place.replaceChildren(...nodes);
      next.textContent = onward;
      scrollTo(0, 0);
      view.focus({ preventScroll: true });
    }
    function goBack() { go(isOver ? at : Math.max(0, at - 1)); }
    function popped() {
      // A link to another part of this page is followed; else it was Back.
      if (location.hash && location.href !== before) return close("link");
      if (!isOver && at === 0) return close("back");
      record("pushState", all[at].id);
      goBack();
    }
    function close(way = "") {
      removeEventListener("popstate", popped);
      document.removeEventListener("keydown", key);
      document.body.classList.remove("stepping");
      view.remove();
      release();
      if (!way && history.state && history.state.stepper === prefix) history.back();
      const target = way === "link" && document.getElementById(decodeURIComponent(location.hash.slice(1)));
      if (target) target.scrollIntoView();
      else opener.focus();
    }
    function key(event) { if (event.key === "Escape") close(); }

    if (!(history.state && history.state.stepper === prefix)) {
      if (wanted) try { history.replaceState(null, "", bare); } catch { /* as above */ }
      record("pushState", all[at].id);
    }
    addEventListener("popstate", popped);
    document.addEventListener("keydown", key);
    document.body.classList.add("stepping");
    $("main").prepend(view);
    const release = keptAwake();
    go(at);
    // An address may lead into the middle: the messages of all it passes by are read there, too, each once.
    const passed = all.slice(0, at).flatMap(one => one.nodes.flatMap(node => (node.matches(".safety") ? node : $$(".safety", node))));
    place.prepend(...copies([...new Map(passed.map(node => [node.textContent, node])).values()]));
    if (found && end && all[at].isCheck) finish(end);
  }

  const openers = $$("main > ol.steps").filter(steps => steps.children.length >= (steps.classList.contains("steps--fault") ? 2 : 3));
  openers.forEach((steps, i) => {
    const isFault = steps.classList.contains("steps--fault");
    const prefix = (isFault ? "check-" : "step-") + (i ? i + 1 + "-" : "");
    const opener = button(isFault ? "Find the fault, one check at a time" : "One step at a time", () => open(steps, opener, prefix));
    steps.before(make("p", "onebyone", opener));
    // An address opens its step on arrival, when it is typed on the page itself, and on the phone's own Forward.
    const arrive = () => {
      const wanted = new RegExp("^#" + prefix + "(start|end|(?:(?:fixed|stop|dealer)-)?\\d+)$").exec(location.hash);
      if (wanted && !document.body.classList.contains("stepping")) open(steps, opener, prefix, wanted[1]);
    };
    addEventListener("hashchange", arrive);
    arrive();
  });
})();
