/* Planners on this van's own numbers. The tables on the page stand without this file. */
"use strict";
(() => {
  const { $, make, roled, button, read, write } = self.lockerleafParts;
  const PLAN = self.lockerleafPlan || { missing: {} };
  const WORDS = { within: "Within the limit", close: "Close to the limit", over: "Over the limit" };
  const GRAVITY = 9.81; // m/s2, as UN R55 rounds it
  const YEAR = 365; // stands for a stock that does not run down
  const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];

  /* --- sums; a test holds them against those of the generator -------------------------------------- */
  // A speck of float noise is no breach, and moves no value by a whole step.
  const against = (value, limit) => value > limit * (1 + 1e-9) ? "over" : value > limit * 0.9 ? "close" : "within";
  const worst = verdicts => ["over", "close"].find(one => verdicts.includes(one)) || "within";
  const steps = (value, digits) => Number((value * 10 ** digits).toFixed(9)) + 0;
  const up = (value, digits = 0) => Math.ceil(steps(value, digits)) / 10 ** digits + 0;
  const down = (value, digits = 0) => Math.floor(steps(value, digits)) / 10 ** digits + 0;

  // What still goes in one place as the van is loaded now, and which limit sets it; moments about the axle.
  function room(plan, place, load, { mass, ball, axle }) {
    const bounds = [["own", place.room_kg - load], ["payload", plan.max_kg - mass]];
    if (place.lever > 0) bounds.push(["towball", (plan.max_ball_kg - ball) / place.lever]);
    if (place.lever < 0) bounds.push(["light", (ball - plan.least_ball_kg) / -place.lever]);
    if (plan.max_axle_kg !== null && place.lever < 1) bounds.push(["axle", (plan.max_axle_kg - axle) / (1 - place.lever)]);
    const [by, least] = bounds.reduce((a, b) => (b[1] < a[1] ? b : a));
    return { by, left: down(Math.max(least, 0)) };
  }

  function loading(plan, loads) {
    let mass = plan.fitted_kg, ball = plan.ball_kg;
    const places = plan.places.map(place => {
      const load = loads[place.key] || 0;
      mass += load;
      ball += load * place.lever;
      return place.room_kg === null ? null : { verdict: against(load, place.room_kg), over: up(Math.max(load - place.room_kg, 0)) };
    });
    const axle = mass - ball, payload = plan.max_kg - plan.fitted_kg, load = mass - plan.fitted_kg;
    plan.places.forEach((place, i) => { if (places[i]) Object.assign(places[i], room(plan, place, loads[place.key] || 0, { mass, ball, axle })); });
    const least = mass * plan.advised_share;
    return {
      left: down(payload - load), ball: up(ball), axle: up(axle), mass: up(mass), places,
      advised: least > plan.max_ball_kg * (1 + 1e-9) ? 0 : up(least),
      isLight: ball < plan.least_ball_kg, isAdvisedMore: least <= plan.max_ball_kg * (1 + 1e-9) && ball < least,
      payload: against(load, payload), towball: against(ball, plan.max_ball_kg),
      wheels: plan.max_axle_kg === null ? null : against(axle, plan.max_axle_kg),
    };
  }

  // T = D R / (g R - D), the D-value solved for one mass; without bound from D = g R on.
  function partner(d_kn, mass) {
    const rest = GRAVITY * mass / 1000 - d_kn;
    return rest > 0 ? d_kn * mass / rest : Infinity;
  }

  function car(plan, given) {
    const limits = [
      ["The car's greatest trailer mass", given.trailer],
      ["The greatest mass of both together", given.train - given.own],
      ["The load on the car's towbar", plan.laden_kg * (given.ball / plan.ball_kg)],
      ["The D-value of the towbar", partner(given.d, given.own)],
      ["The D-value of the van's coupling", partner(plan.coupling_d_kn, given.own)],
    ].filter(limit => limit[1] !== Infinity);
    const lowest = limits.reduce((a, b) => (b[1] < a[1] ? b : a));
    const advised = plan.kerb_share !== null && given.kerb ? given.kerb * plan.kerb_share : Infinity;
    return {
      verdict: against(plan.laden_kg, lowest[1]), lowest: lowest[0], most: down(lowest[1]), limits: limits.map(limit => [limit[0], down(limit[1])]),
      advised: plan.laden_kg > advised ? down(advised) : null,
    };
  }

  function days(plan, given) {
    const found = {};
    const add = (name, lasting) => { found[name] = { lasting, verdict: lasting >= YEAR ? "within" : against(given.days, lasting) }; };
    if (plan.gas) {
      const day = plan.gas.burners.reduce((sum, burner, i) => sum + burner.g_per_h * given.hours[i], 0);
      add("gas", Math.min(plan.gas.bottle_g * plan.gas.bottles / Math.max(day, 0.001), YEAR));
      found.gas.bottle = Math.min(plan.gas.bottle_g / Math.max(day, 0.001), YEAR);
    }
    if (plan.battery) {
      const net = given.energy - (plan.battery.sun_wh.length ? plan.battery.sun_wh[given.month] : 0);
      add("battery", net > 0 ? Math.min(plan.battery.usable_wh / net, YEAR) : YEAR);
    }
    if (plan.water) {
      const day = given.persons * given.litres;
      add("water", day > 0 ? Math.min(plan.water.usable_l / day, YEAR) : YEAR);
    }
    if (plan.cassette) {
      const day = given.persons * (given.flushes * plan.cassette.flush_l + plan.cassette.body_l);
      add("cassette", day > 0 ? Math.min(plan.cassette.usable_l / day, YEAR) : YEAR);
    }
    return found;
  }

  // What a day takes by habit and weather; of the sun, the darkest month of that weather.
  function preset(plan, habit, weather) {
    const share = plan.habits[habit], { gas, battery, water, cassette } = plan;
    const heat = battery && weather !== "warm" ? battery.heat_wh : 0;
    return {
      hours: gas ? gas.burners.map(burner => burner.hours[weather] * (burner.by_habit ? share : 1)) : [],
      energy: battery ? battery.steady_wh + heat + (battery.day_wh - battery.steady_wh - battery.heat_wh) * share : 0,
      month: battery && battery.sun_wh.length ? battery.season_month[weather] : 0,
      litres: water ? water.person_l * share : 0,
      flushes: cassette ? cassette.flushes * share : 0,
    };
  }

  function mains(plan, given) {
    const power = given.powers.reduce((sum, one) => sum + one, 0), limit = given.supply * plan.voltage_v;
    return { verdict: against(power, limit), power: up(power), current: up(power / plan.voltage_v, 1), limit: down(limit), left: down(limit - power) };
  }

  /* --- parts of a page ----------------------------------------------------------------------------- */
  const amount = (value, unit) => String(value).replace("-", "\u2212") + " " + (unit === "days" && value === 1 ? "day" : unit);

  // A number as it is typed: one comma is the point, unless commas part thousands. NaN for anything else, below nothing too.
  function numeral(typed) {
    const text = typed.trim(), bare = /^[1-9]\d{0,2}(,\d{3})+(\.\d*)?$/.test(text) ? text.replace(/,/g, "") : text.replace(",", ".");
    return /^(\d+\.?\d*|\.\d+)$/.test(bare) ? Number(bare) : NaN;
  }

  // A form whose fields are kept in this browser; ``change`` is told of every change.
  function form(name, change) {
    const key = "plan " + name, kept = read(key, {}), fields = new Map(), checks = [], body = make("div", "plan__fields");
    const keep = () => { write(key, Object.fromEntries([...fields].map(([id, field]) => [id, field.value]))); change(); };
    const place = (id, words, unit, control, { hint, plate }, ...around) => {
      control.id = "plan-" + id;
      const label = make("label", "plan__label", ...(plate ? [make("span", "plate", plate), " "] : []), words + (unit ? ", " + unit : ""));
      label.htmlFor = control.id;
      const row = make("div", "plan__field", label, make("div", "plan__control", ...around));
      const note = make("p", "plan__note", hint || "");
      note.id = control.id + "-note";
      control.setAttribute("aria-describedby", note.id);
      row.append(note);
      body.append(row);
      fields.set(id, control);
      control.addEventListener("input", keep);
      return note;
    };
    const api = {
      body, fields,
      head: words => body.append(make("h3", "", words)),
      // A typed field between two buttons that step it.
      number(id, words, unit, { value = "", step = 1, most = 100000, ...about } = {}) {
        // A field of type number would drop a comma unseen, and keep from us what it cannot read.
        const field = make("input", ""), wrong = make("p", "plan__wrong");
        Object.assign(field, { type: "text", inputMode: "decimal", autocomplete: "off", value: kept[id] ?? value });
        field.initial = String(value);
        wrong.id = "plan-" + id + "-wrong";
        checks.push(() => {
          const isWrong = field.value.trim() !== "" && !(numeral(field.value) <= most);
          field.setAttribute("aria-invalid", isWrong);
          wrong.textContent = isWrong ? "Type a number from 0 to " + most + "." : "";
          return isWrong ? [(about.plate ? about.plate + " " : "") + words] : [];
        });
        const by = sign => {
          const stepper = button(sign + step, () => {
            const next = (numeral(field.value) || 0) + (sign === "+" ? step : -step);
            field.value = Math.min(Math.max(Number(next.toFixed(4)), 0), most);
            keep();
          });
          stepper.setAttribute("aria-label", sign + step + (unit ? " " + unit : "") + ": " + (about.plate ? about.plate + " " : "") + words);
          return stepper;
        };
        const note = place(id, words, unit, field, about, by("\u2212"), field, by("+"));
        note.after(wrong);
        field.setAttribute("aria-describedby", note.id + " " + wrong.id);
        return note;
      },
      choice(id, words, options, value, hint = "") {
        const field = make("select", "", ...options.map(([key, shown]) => Object.assign(make("option", "", shown), { value: key })));
        field.value = options.some(option => String(option[0]) === kept[id]) ? kept[id] : String(value);
        field.initial = String(value);
        return place(id, words, "", field, { hint }, field);
      },
      typed(id) {
        const value = numeral(fields.get(id).value);
        return Number.isNaN(value) ? null : value;
      },
      // The fields that hold no number, or one nobody can mean: nothing is judged before they are put right.
      wrong: () => checks.flatMap(check => check()),
      keep,
      clear() {
        for (const field of fields.values()) field.value = field.initial;
        keep();
      },
    };
    return api;
  }

  function chip(verdict, words) {
    return make("span", "verdict verdict--" + verdict, words || WORDS[verdict]);
  }

  // The verdict stays in sight above the fields; it is read out when it changes.
  function frame(group, intro, fields) {
    const pinned = roled("status", make("div", "plan__verdict")), rows = roled("list", make("ul", "plan__rows"));
    const clear = button("Clear what is typed", () => fields.clear());
    const numbers = make("section", "", make("h2", "", "In numbers"), rows);
    group.before(make("p", "", intro), pinned, fields.body, make("p", "plan__clear", clear), numbers);
    let said = "";
    return (verdict, words, lines, own) => {
      const wrong = fields.wrong();
      if (wrong.length) [verdict, words, lines, own] = ["", "Not a number that can be right: " + wrong.join(", ") + ".", [], ""];
      const next = verdict + words + (own || "");
      if (next !== said) pinned.replaceChildren(...(verdict ? [chip(verdict, own), " "] : []), make("span", "", words));
      said = next;
      numbers.hidden = !lines.length;
      rows.replaceChildren(...lines.map(([name, shown, judged]) => make("li", "", make("span", "plan__name", name), make("strong", "", shown), ...(judged ? [chip(judged)] : []))));
    };
  }

  /* --- the planners -------------------------------------------------------------------------------- */
  function planLoading(group, plan) {
    const notes = [], fields = form("loading", () => show());
    const tell = frame(group, "Type what lies in each place. The van counts with everything fitted.", fields);
    for (const place of plan.places) {
      notes.push(fields.number(place.key, place.name, "kg", { plate: place.code, step: place.code ? 1 : 5, most: 2000 }));
    }
    const SETS = {
      own: "Its own limit sets it.", payload: "The payload sets it.", towball: "The limit of the towball sets it.",
      light: "The towball must keep " + amount(up(plan.least_ball_kg), "kg") + ".", axle: "The limit of the " + (plan.axles > 1 ? "axles" : "axle") + " sets it.",
    };
    const wheels = plan.axles > 1 ? "On both axles together" : "On the axle";
    function show() {
      if (fields.wrong().length) {
        for (const note of notes) note.replaceChildren();
        return tell("", "", []);
      }
      const loads = Object.fromEntries(plan.places.map(place => [place.key, fields.typed(place.key) || 0]));
      const found = loading(plan, loads), named = place => (place.code ? place.code + " " : "") + place.name;
      found.places.forEach((place, i) => {
        if (place === null) notes[i].replaceChildren("No limit of its own is stated. Ask your dealer first.");
        else notes[i].replaceChildren(place.over ? "Too much by " + amount(place.over, "kg") + ". " : "Room left: " + amount(place.left, "kg") + ". " + SETS[place.by] + " ", ...(loads[plan.places[i].key] ? [chip(place.verdict)] : []));
      });
      const verdict = worst([found.payload, found.towball, found.wheels, ...found.places.map(place => place && place.verdict)]);
      const full = plan.places.filter((_, i) => found.places[i] && found.places[i].verdict === "over").map(named);
      const least = found.places.reduce((least, place, i) => (place && plan.places[i].code && (least < 0 || place.left < found.places[least].left) ? i : least), -1);
      const reasons = [
        found.towball === "over" && "Too much on the towball.",
        found.wheels === "over" && "Too much on the " + (plan.axles > 1 ? "axles." : "axle."), full.length && "Too much in " + full.join(", ") + ".",
        found.isLight && "Less than " + amount(plan.least_ball_kg, "kg") + " on the towball: the van may sway.",
        !found.isLight && found.isAdvisedMore && "Guidance is at least " + amount(found.advised, "kg") + " on the towball.",
      ].filter(Boolean);
      const isHeavy = found.left < 0, left = amount(Math.abs(found.left), "kg");
      const words = (isHeavy ? "The van is too heavy by " + left + ". " : left + " still to load, ") + amount(found.ball, "kg") + " on the towball. " + reasons.join(" ");
      tell(found.isLight ? "over" : verdict, words.trim(), [
        [isHeavy ? "Too heavy by" : "Still to load", left, found.payload],
        ["On the towball. Limit " + amount(down(plan.max_ball_kg), "kg") + ", or your car's if lower", amount(found.ball, "kg"), found.towball],
        ...(found.wheels ? [[wheels + ". Limit " + amount(down(plan.max_axle_kg), "kg"), amount(found.axle, "kg"), found.wheels]] : []),
        ["The van weighs. Limit " + amount(down(plan.max_kg), "kg"), amount(found.mass, "kg"), found.payload],
        ...(least < 0 ? [] : [["Least room left: " + named(plan.places[least]) + ". " + SETS[found.places[least].by], amount(found.places[least].left, "kg")]]),
      ], found.isLight && verdict !== "over" ? "Too light on the towball" : "");
    }
    show();
  }

  function planCar(group, plan) {
    const fields = form("car", () => show());
    const tell = frame(group, "Type what your car's plates and papers say. The lowest of all limits counts.", fields);
    const asked = [ // and the most anybody can mean
      ["own", "The car's own greatest mass", "kg", 10, 10000, "On the car's plate: the most the car alone may weigh."],
      ["trailer", "Greatest trailer mass, " + (plan.braked ? "with brakes" : "without brakes"), "kg", 10, 10000, "In the car's papers."],
      ["train", "Greatest mass of car and van together", "kg", 10, 20000, "On the car's plate."],
      ["ball", "Greatest load on the towbar", "kg", 5, 1000, "The lower of the car's papers and the towbar's plate."],
      ["d", "D-value of the towbar", "kN", 0.1, 100, "On the towbar's plate."],
    ];
    for (const [id, words, unit, step, most, hint] of asked) fields.number(id, words, unit, { step, most, hint });
    if (plan.kerb_share !== null) fields.number("kerb", "Kerb mass of the car, if you know it", "kg", { step: 10, most: 10000, hint: "In the car's papers. It is advice here, not a limit." });
    function show() {
      const given = Object.fromEntries([...fields.fields.keys()].map(id => [id, fields.typed(id)]));
      const open = asked.filter(([id]) => given[id] === null || (id === "own" && !given[id])).length; // papers may say 0 of a limit
      if (open) return tell("", open === 1 ? "One more to type." : open + " more to type.", []);
      if (given.train <= given.own) return tell("", "The mass of car and van together must be more than the car's own.", []);
      const found = car(plan, given);
      const advice = found.advised === null ? "" : " Advised for this car: a van of " + amount(found.advised, "kg") + " at most.";
      tell(found.verdict, "This van may weigh " + amount(up(plan.laden_kg), "kg") + ". " + found.lowest + " allows " + amount(found.most, "kg") + ". That is the lowest of all limits." + advice,
        found.limits.map(([name, most]) => [name + " allows a van of", amount(most, "kg")]));
    }
    show();
  }

  const MONTH = 30; // a difference so small that no sum promises more
  function halves(lasting) {
    const half = Math.floor(steps(2 * lasting, 0));
    return lasting >= YEAR ? "does not run down" : lasting > MONTH ? "more than a month" : half < 2 ? (half ? "half a day" : "less than half a day") : amount(half / 2, "days");
  }
  const whole = lasting => lasting >= YEAR ? "a year or more" : down(lasting) ? amount(down(lasting), "days") : "less than 1 day";

  // What runs out or is full, and what an owner does about it on the way.
  const STOCKS = {
    gas: ["Gas", "runs out", "change the bottle on the way"], battery: ["Battery", "runs out", "charge it on the way"],
    water: ["Water", "runs out", "fill up on the way"], cassette: ["Toilet cassette", "is full", "empty it on the way"],
  };
  const SEASONS = { cold: "Winter, cold", mild: "Spring, autumn, mild", warm: "Summer, warm" };
  const percent = share => Math.round(100 * share) + " %";

  function planDays(group, plan) {
    const fields = form("days", () => show());
    const tell = frame(group, "Say how you live and how long you stay away. All starts full" + (plan.cassette ? ", the toilet cassette empty." : "."), fields);
    const burners = plan.gas ? plan.gas.burners : [], { battery, water, cassette } = plan;
    const turns = burners.some(burner => burner.hours.cold !== burner.hours.warm) || (battery && (battery.heat_wh || battery.sun_wh.length));
    const usual = preset(plan, "usual", "cold");
    const shown = { hours: value => Number(value.toFixed(2)), energy: value => up(value), litres: value => up(value, 1), flushes: value => up(value) };
    fields.number("days", "Days away", "", { value: 3, most: 365 });
    if (water || cassette) fields.number("persons", "Persons", "", { value: (water || cassette).berths, most: 20 });
    const presets = [["habit", "How you live", [["sparing", "Sparing"], ["usual", "As usual"], ["generous", "Generous"]], "usual", "Sparing is " + percent(plan.habits.sparing) + " of a usual day, generous " + percent(plan.habits.generous) + ". Sets the amounts below."]];
    if (turns) presets.push(["season", "Season", Object.entries(SEASONS), "cold", "Sets heating and sun below."]);
    for (const [id, words, options, value, hint] of presets) {
      fields.choice(id, words, options, value, hint);
      fields.fields.get(id).addEventListener("change", fill);
    }
    burners.forEach((burner, i) => fields.number("hours-" + i, burner.name + ", flat out each day", "hours", { value: shown.hours(usual.hours[i]), step: 0.25, most: 24 }));
    if (water) fields.number("litres", "Water for each person each day", "litres", { value: shown.litres(usual.litres), most: 500 });
    if (cassette) fields.number("flushes", "Flushes for each person each day", "", { value: shown.flushes(usual.flushes), most: 50 });
    if (battery) {
      fields.number("energy", "12 V used each day", "Wh", { value: shown.energy(usual.energy), step: 10, most: 20000, hint: "Add what you plug in." });
      if (battery.sun_wh.length) fields.choice("month", "Month, for the sun", MONTHS.map((month, i) => [i, month]), usual.month);
    }
    function fill() {
      const asked = id => (fields.fields.has(id) ? fields.fields.get(id).value : ""), day = preset(plan, asked("habit"), asked("season") || "cold");
      const set = (id, value) => { if (fields.fields.has(id)) fields.fields.get(id).value = value; };
      day.hours.forEach((hours, i) => set("hours-" + i, shown.hours(hours)));
      for (const id of ["litres", "flushes", "energy"]) set(id, shown[id](day[id]));
      set("month", day.month);
      fields.keep();
    }
    function show() {
      const value = id => fields.fields.has(id) ? fields.typed(id) || 0 : 0;
      if (!value("days")) return tell("", "Type how many days you stay away.", []);
      if (fields.fields.has("persons") && !value("persons")) return tell("", "Type how many persons come along.", []);
      const found = days(plan, { days: value("days"), hours: burners.map((_, i) => value("hours-" + i)), energy: value("energy"), month: value("month"), persons: value("persons"), litres: value("litres"), flushes: value("flushes") });
      const all = Object.entries(found), verdict = worst(all.map(([, one]) => one.verdict)), first = all.reduce((a, b) => (b[1].lasting < a[1].lasting ? b : a));
      const lasts = (name, one) => name === "gas" ? whole(one.lasting) : halves(one.lasting);
      const rows = all.map(([name, one]) => [STOCKS[name][0] + (name === "gas" && plan.gas.bottles > 1 ? ", all bottles" : "") + (one.verdict === "over" ? ": " + STOCKS[name][2] : ""), lasts(name, one), one.verdict]);
      if (plan.gas && plan.gas.bottles > 1) rows.splice(1, 0, ["Gas, one bottle", whole(found.gas.bottle)]);
      const [name, ends] = STOCKS[first[0]];
      tell(verdict, amount(value("days"), "days") + " away. " + name + (first[1].lasting >= YEAR ? " does not run down." : " " + ends + " first: " + lasts(...first) + "."), rows);
    }
    show();
  }

  function planMains(group, plan) {
    const fields = form("mains", () => show());
    const tell = frame(group, "Choose the supply and what runs at the same time.", fields);
    fields.choice("supply", "Supply of the pitch", plan.supplies_a.map(rating => [rating, amount(rating, "A")]), plan.supplies_a[0], "It is written on the post, or ask the site.");
    plan.loads.forEach((load, i) => fields.choice("load-" + i, load.name, [[0, "Off"], ...load.steps_w.map(power => [power, amount(power, "W")])], 0));
    fields.number("plugged", "What you plug in, together", "W", { step: 100, most: 20000, hint: "The label of each says its watts." });
    function show() {
      const found = mains(plan, { supply: fields.typed("supply"), powers: [...plan.loads.map((_, i) => fields.typed("load-" + i) || 0), fields.typed("plugged") || 0] });
      const words = amount(found.power, "W") + " of " + amount(found.limit, "W") + ". " + (found.left < 0 ? "The supply trips. Turn something off." : amount(found.left, "W") + " left.");
      tell(found.verdict, words, [["Together they draw", amount(found.current, "A")], ["The supply gives", amount(fields.typed("supply"), "A")]]);
    }
    show();
  }

  PLAN.work = { loading, car, days, preset, mains, halves, whole };
  const planners = { loading: planLoading, car: planCar, days: planDays, mains: planMains };
  for (const [name, start] of Object.entries(planners)) {
    const group = $(".group--plan-" + name);
    if (!group) continue;
    if (PLAN[name]) start(group, PLAN[name]);
    const missing = [...new Set((name === "days" ? ["gas", "battery", "water", "cassette"] : [name]).flatMap(part => PLAN.missing[part] || []))];
    if (missing.length) group.before(make("p", "note", "Not all is known of this van. Read " + missing.join(", ") + ". Then tell your dealer."));
  }
})();
