"use strict";
// The page works without this. With it, it is live, and a lost connection shows at once.
(() => {
  const byId = (id) => document.getElementById(id);
  const form = byId("taps"), said = byId("said"), lost = byId("lost"), show = byId("show"), trouble = byId("trouble"), hazards = byId("hazards");
  const field = (name) => form.elements.namedItem(name);
  const silence = 3000;  // ms without a word from the server: the connection counts as lost
  const patience = 5000; // ms for the answer to a tap
  const settles = 1500;  // ms in which a second tap of one button is a finger that bounces

  let live = false, heard = 0, clock = byId("clock").textContent;
  let frame = null, sent = "", lastShow = "", lastFacts = "", lastLog = "", lastAway = "", lastHazards = null;
  let told = 0;            // the event that the foot of the page has told of
  let pending = null;      // the tap that has no answer
  const held = new Map();  // button places until when they are held
  const fields = ["grams", "temp", "seconds", "room", "left"];

  // Taps

  const freshKey = () => Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, "0")).join("");

  const say = (text, refused) => {
    said.textContent = text;
    said.classList.toggle("refused", refused);
  };

  const tell = (result) => {
    say((result.logged ? "✓ " : "✗ Not logged. ") + result.text + (result.at ? " · " + result.at : ""), !result.logged);
    if (result.logged) {
      told = result.seq;
      for (const name of fields) field(name).value = "";
    }
  };

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const button = event.submitter;
    if (!button || button.name !== "do") return;
    tap(button);
  });

  const tap = async (button) => {
    const place = button.dataset.place;
    if (!live) {
      say("✗ Not logged: there is no connection.", true);
      return;
    }
    if (pending || (held.get(place) || 0) > Date.now()) return;
    const is = stateOf(button);
    if (missing(is)) { // that of the bar: it leads to its keys
      const pad = byId(is.field);
      pad.open = true;
      pad.scrollIntoView();
      pad.querySelector("input").focus({ preventScroll: true });
      return;
    }
    const body = new URLSearchParams(new FormData(form, button));
    pending = body.get("key") + "-" + button.value.split(" ")[0];
    field("ago").checked = false;
    held.set(place, Date.now() + settles);
    setTimeout(draw, settles + 50);
    draw();
    try {
      const answer = await fetch("tap", {
        method: "POST", body, headers: { Accept: "application/json" }, signal: AbortSignal.timeout(patience), redirect: "error",
      });
      if ((answer.headers.get("Content-Type") || "").startsWith("application/json")) {
        tell(await answer.json());
      } else {
        say("✗ Not logged: " + (await answer.text()).trim(), true);
      }
      pending = null;
      field("key").value = freshKey();
      if (place === "pause" && trouble) trouble.open = false;
      byId("gone").open = false;
    } catch {
      say("? No answer to that tap. Wait: what became of it is asked as soon as there is a connection.", true);
      lose();
    }
    draw();
  };

  // After a connection was lost the server tells what became of the tap.
  const settle = async () => {
    if (!pending) return;
    try {
      const answer = await fetch("tap?key=" + encodeURIComponent(pending), { signal: AbortSignal.timeout(patience) });
      tell(await answer.json());
      pending = null;
      field("key").value = freshKey();
      draw();
    } catch {
      setTimeout(() => live && settle(), 1000);
    }
  };

  // Keys. What a field begins with is its placeholder: nothing is sent that nobody keyed in.

  const start = (name) => frame.keys[name === "seconds" ? name + " " + field("cup").value : name];

  const press = (input, key) => {
    const entered = /^[0-9]{1,6}([.,][0-9]?)?$/;
    if (key === "=<") return input.value.slice(0, -1);
    if (key.startsWith("=")) return entered.test(input.value + key.slice(1)) ? input.value + key.slice(1) : input.value;
    const from = parseFloat((input.value || input.placeholder).replace(",", "."));
    if (Number.isNaN(from)) return input.value;
    return String(Math.round(10 * Math.min(999999, Math.max(0, from + parseFloat(key)))) / 10);
  };
  form.addEventListener("click", (event) => {
    const button = event.target.closest("button.step");
    if (!button) return;
    event.preventDefault();
    const [name, key] = button.value.split(":");
    field(name).value = press(field(name), key);
    draw();
  });
  form.addEventListener("input", () => draw());
  if (trouble) {
    trouble.querySelector("summary").addEventListener("click", (event) => {
      if ("off" in trouble.dataset) event.preventDefault();
    });
  }

  // Drawing

  const keys = () => {
    for (const name of fields) {
      const input = field(name), is = start(name), pad = byId(name);
      if (input.placeholder !== (is.value || " ")) input.placeholder = is.value || " ";
      const note = pad.querySelector("summary .note");
      if (note.textContent !== is.note) note.textContent = is.note;
      for (const step of pad.querySelectorAll(".steps .step")) step.disabled = !input.value && !is.value;
    }
    field("next").value = frame.keys.grams.value;
  };
  // missing tells of a button whose field is empty; a pot's may begin with what is next.
  const missing = (is) => is.field && !field(is.field).value.trim() && !(is.field === "grams" && start("grams").value);
  const noteOf = (is) => {
    if (!is.field || !is.on) return is.note;
    const value = field(is.field).value.trim(), from = start(is.field);
    return (is.note && is.note + ": ") + (value ? value + " " + from.unit : from.hint);
  };

  // Buttons of hazards come and go; what they are is written on them.
  const stateOf = (button) => frame.buttons[button.dataset.place] || { on: true, due: button.classList.contains("due"), value: button.value };
  // Only words change under a finger, unless the hazards themselves do.
  const dangers = () => {
    const of = frame.hazards.map((h) => h.of).join();
    if (of !== lastHazards) {
      hazards.innerHTML = frame.hazards.map((h) => h.html).join("");
      lastHazards = of;
    }
    hazards.querySelectorAll(".danger").forEach((p, i) => {
      if (p.textContent !== frame.hazards[i].text) p.textContent = frame.hazards[i].text;
    });
    if (frame.away !== lastAway) byId("away").innerHTML = lastAway = frame.away;
  };

  const draw = () => {
    document.body.classList.toggle("dead", !live);
    byId("clock").textContent = clock;
    byId("link").textContent = live ? "live" : "";
    lost.hidden = live;
    if (!frame) {
      for (const button of document.querySelectorAll("button.tap")) button.disabled = true;
      return;
    }
    if (frame.show !== lastShow) show.innerHTML = lastShow = frame.show;
    if (frame.facts !== lastFacts) byId("facts").innerHTML = lastFacts = frame.facts;
    if (frame.seq > told && pending === null) {
      if (told > 0) say(frame.last, false); // another screen, or the laptop
      told = frame.seq;
    }
    if (frame.log !== lastLog) byId("log").innerHTML = lastLog = frame.log;
    document.body.dataset.alarm = frame.alarm;
    document.body.dataset.seq = frame.seq;
    field("seen").value = frame.seq;
    keys();
    dangers();
    for (const button of document.querySelectorAll("button.tap")) {
      const place = button.dataset.place, is = stateOf(button);
      // What is due has changed under a finger that is on its way: it is held for as long as a bounce.
      if (place === "next" && button.value !== is.value) {
        if (button.value) held.set(place, Date.now() + settles);
        setTimeout(draw, settles + 50);
        button.querySelector(".label").textContent = is.label;
      }
      button.disabled = !live || !is.on || (missing(is) && place !== "next") || pending !== null || (held.get(place) || 0) > Date.now();
      button.classList.toggle("due", is.due);
      if (place !== "pause") button.value = is.value;
    }
    for (const note of document.querySelectorAll("[data-note]")) {
      const text = noteOf(frame.buttons[note.dataset.note]);
      if (note.textContent !== text) note.textContent = text;
    }
    if (trouble) {
      trouble.querySelector("summary").classList.toggle("due", frame.buttons.pause.due);
      trouble.toggleAttribute("data-off", !live || !frame.buttons.pause.on);
      if (!frame.buttons.pause.on) trouble.open = false;
    }
    const curve = byId("curve");
    if (curve && frame.curve && curve.dataset.version !== String(frame.curve)) {
      curve.dataset.version = frame.curve;
      curve.src = "curve.svg?v=" + frame.curve;
      curve.hidden = false;
    }
    alarm();
  };

  // The stream

  const lose = () => {
    if (live || lost.hidden) lost.textContent = "NO CONNECTION. Taps are not taken. Figure and order are of " + clock + ".";
    live = false;
    draw();
  };
  const hear = () => {
    heard = Date.now();
    const back = !live;
    live = true;
    if (back) settle();
  };
  let source = null;
  const connect = () => {
    if (source) source.close();
    source = new EventSource("stream");
    source.addEventListener("frame", (event) => {
      if (event.data !== sent) {
        sent = event.data;
        frame = JSON.parse(event.data);
        clock = frame.clock;
      }
      hear();
      draw();
    });
    source.addEventListener("clock", (event) => {
      clock = JSON.parse(event.data).clock;
      hear();
      draw();
    });
    source.addEventListener("bye", lose);
    source.onerror = () => {
      lose();
      if (source.readyState === EventSource.CLOSED) setTimeout(connect, 1000);
    };
  };
  setInterval(() => {
    if (live && Date.now() - heard > silence) {
      lose();
      connect();
    }
  }, 500);

  // Alarm: sound, once it was allowed, and the title

  const title = () => (frame ? frame.title : document.title);
  let state = "calm", flash = false, sound = null, rung = 0;
  const ranks = { calm: 0, reserve: 1, over: 2, dangerous: 3 };
  const again = { reserve: 60000, over: 10000, dangerous: 10000 }; // ms until it rings again

  const ring = (times, hertz) => {
    if (!sound) return;
    for (let i = 0; i < times; i++) {
      const tone = sound.createOscillator(), loud = sound.createGain(), at = sound.currentTime + 0.45 * i;
      tone.type = "square";
      tone.frequency.value = hertz;
      loud.gain.setValueAtTime(0.35, at);
      loud.gain.setValueAtTime(0, at + 0.25);
      tone.connect(loud).connect(sound.destination);
      tone.start(at);
      tone.stop(at + 0.3);
    }
    document.body.dataset.rung = String(++rung);
  };
  let next = 0;
  const alarm = () => {
    const now = frame.alarm;
    if (ranks[now] > ranks[state]) next = 0;
    state = now;
    if (state !== "calm" && sound && Date.now() >= next) {
      next = Date.now() + again[state];
      ring(ranks[state] > 1 ? 5 : 3, ranks[state] > 1 ? 980 : 660);
    }
  };
  setInterval(() => {
    flash = !flash && (state !== "calm" || !live);
    document.title = !live ? (flash ? "▲ NO CONNECTION ▲" : "NO CONNECTION") : !flash ? title() : state === "dangerous" ? "▲▲ DANGER ▲▲" : state === "over" ? "▲▲ BATH OVER ▲▲" : "▲ RESERVE ▲";
  }, 1000);

  byId("sound").hidden = false;
  byId("beep").addEventListener("click", async () => {
    const button = byId("beep");
    if (sound) {
      await sound.close();
      sound = null;
    } else {
      sound = new AudioContext();
      await sound.resume();
      next = 0;
      ring(1, 660);
    }
    button.setAttribute("aria-pressed", String(!!sound));
    button.textContent = sound ? "Sound is on: tap to silence" : "Sound on";
    if (sound && frame) alarm();
  });

  draw();
  lost.hidden = true; // until it is known
  connect();
})();
