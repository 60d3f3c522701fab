(function () {
  "use strict";
  const $ = (id) => document.getElementById(id);
  const make = (tag, cls, text) => {
    const n = document.createElement(tag);
    if (cls) { n.className = cls; }
    if (text) { n.textContent = text; }
    return n;
  };
  let view = null;
  let chosen = null; // the title of the document that is shown
  let here = null; // the line whose reading is shown: { file, line }
  let moved = ""; // where the text was changed last, as it was told
  let frame = null, coming = null; // the sheets, and those that are being loaded
  let first = 1; // of the lines that are listed

  // What is told.
  const events = new EventSource("events");
  events.addEventListener("view", (e) => take(JSON.parse(e.data)));
  events.onerror = () => say("Nothing is heard of `tamis preview`: is it still running? What is shown is as it was.", true);

  function say(text, bad) {
    $("state").textContent = text;
    $("state").classList.toggle("bad", !!bad);
  }
  function count(n, one, many) { return n + " " + (n === 1 ? one : many); }

  function take(now) {
    view = now;
    view.documents = view.documents || [];
    view.findings = view.findings || [];
    view.files = view.files || [];
    sheets(); // they take the longest
    tell();
    list();
    pick($("file"), view.files, here && here.file);
    const at = view.at && view.at.file + " " + view.at.line + " " + view.round;
    if (view.at && at !== moved) {
      moved = at;
      go(view.at.file, view.at.line);
    } else if (here && view.files.includes(here.file)) {
      go(here.file, here.line);
    } else if (view.files.length) {
      go(view.files[0], 1);
    } else {
      here = null;
      $("lines").replaceChildren();
      $("reading").replaceChildren();
      $("where").textContent = "";
    }
  }

  function tell() {
    const n = { error: 0, warning: 0, question: 0, hint: 0 };
    view.findings.forEach((f) => { n[f.severity] += 1; });
    const parts = [];
    if (n.error) { parts.push(count(n.error, "error", "errors")); }
    if (n.warning) { parts.push(count(n.warning, "warning", "warnings")); }
    if (n.question) { parts.push(count(n.question, "question", "questions")); }
    if (n.hint) { parts.push(count(n.hint, "hint", "hints")); }
    const found = parts.length ? parts.join(", ") + "." : "Nothing was found.";
    if (view.trouble) {
      say(view.trouble, true);
    } else if (view.working) {
      say(found + " The sheets are being made.", false);
    } else if (view.stale) {
      say(found + (view.documents.length ? " The sheets are those of the last text without errors." : " There are no sheets while there are errors."), true);
    } else {
      say(found, false);
    }
    $("sheets").classList.toggle("stale", view.stale && view.documents.length > 0);
  }

  // Findings.
  function list() {
    $("found").replaceChildren(...view.findings.map((f) => {
      const li = make("li", f.severity);
      const head = make("p");
      head.append(make("b", "", f.severity[0].toUpperCase() + f.severity.slice(1) + (f.code ? " " + f.code : "")), ": " + f.message);
      li.append(head);
      if (f.file) {
        const to = make("button", "", f.file + ", line " + f.line);
        to.type = "button";
        to.addEventListener("click", () => go(f.file, f.line));
        li.append(to);
      }
      if (f.why) { li.append(make("p", "why", f.why)); }
      (f.help || []).forEach((h) => li.append(make("p", "help", "Try: " + h)));
      return li;
    }));
    if (!view.findings.length) { $("found").replaceChildren(make("li", "hint", view.trouble ? "The text cannot be read." : "It all adds up.")); }
  }

  function pick(select, names, now) {
    const old = Array.from(select.options, (o) => o.value);
    if (old.length !== names.length || old.some((n, i) => n !== names[i])) {
      select.replaceChildren(...names.map((n) => { const o = make("option", "", n); o.value = n; return o; }));
    }
    if (now && names.includes(now)) { select.value = now; }
  }

  // The text, and how a line of it is read.
  async function get(what, file, line) {
    try {
      const r = await fetch(what + "?file=" + encodeURIComponent(file) + "&line=" + line);
      return r.ok ? await r.json() : null;
    } catch (e) {
      return null;
    }
  }
  let asked = 0;
  async function go(file, line) {
    const turn = ++asked;
    here = { file: file, line: line };
    $("file").value = file;
    const [text, said] = await Promise.all([get("text", file, line), get("line", file, line)]);
    if (turn !== asked) { return; } // something else was asked for since
    if (text) { write(text, line); }
    $("where").textContent = file + ", line " + line;
    if (said && said.html) {
      $("reading").innerHTML = said.html; // made of Markdown, in which markup has no say; and the policy lets no script in it run
    } else {
      $("reading").replaceChildren(make("p", "", "Nothing is read from this line."));
    }
  }
  function write(text, line) {
    first = text.first;
    const grave = {};
    view.findings.forEach((f) => {
      if (f.file !== here.file || f.severity === "hint") { return; }
      for (let n = f.line; n <= f.last; n++) { grave[n] = grave[n] || f.severity; }
    });
    const near = $("lines").dataset.file === here.file ? $("lines").scrollTop : 0;
    $("lines").dataset.file = here.file;
    $("lines").replaceChildren(...(text.lines || []).map((t, i) => {
      const n = first + i, li = make("li", grave[n] || "");
      li.id = "line" + n;
      li.setAttribute("role", "option");
      li.setAttribute("aria-selected", n === line ? "true" : "false");
      li.append(make("span", "no", String(n)), make("span", "", t));
      if (grave[n]) { li.append(make("span", "vh", " (" + grave[n] + ")")); }
      li.addEventListener("click", () => go(here.file, n));
      return li;
    }));
    $("lines").setAttribute("aria-activedescendant", "line" + line);
    $("lines").scrollTop = near;
    const li = $("line" + line);
    if (li) {
      const top = li.offsetTop - $("lines").offsetTop, room = $("lines").clientHeight;
      if (top < near || top + li.offsetHeight > near + room) { $("lines").scrollTop = top - room / 2; }
    }
  }
  $("lines").addEventListener("keydown", (e) => {
    const by = { ArrowDown: 1, ArrowUp: -1, PageDown: 10, PageUp: -10 }[e.key];
    if (!by || !here) { return; }
    e.preventDefault();
    go(here.file, Math.max(1, Math.min(first + $("lines").children.length - 1, here.line + by)));
  });
  $("file").addEventListener("change", () => go($("file").value, 1));

  // The sheets. Others are loaded behind those that are seen, and change places with them
  // when they stand where these do.
  function sheets() {
    const docs = view.documents, titles = docs.map((d) => d.title);
    $("none").hidden = docs.length > 0;
    $("which").hidden = docs.length < 2;
    $("alone").hidden = docs.length === 0;
    if (!docs.length) {
      document.title = "Preview";
      if (frame) { frame.remove(); frame = null; }
      if (coming) { coming.remove(); coming = null; }
      return;
    }
    if (!titles.includes(chosen)) { chosen = titles[Math.min(Math.max(0, $("document").selectedIndex), titles.length - 1)]; }
    pick($("document"), titles, chosen);
    const n = titles.indexOf(chosen), doc = docs[n];
    document.title = doc.title + " · Preview";
    $("alone").href = "sheets/" + n;
    const shown = coming || frame;
    if (shown && shown.dataset.sum === doc.sum) { return; }
    if (coming) { coming.remove(); }
    const next = coming = make("iframe", "coming");
    next.title = "The sheets of " + doc.title;
    next.dataset.sum = doc.sum;
    if (frame) { carry(frame, doc); }
    next.addEventListener("load", () => {
      if (coming !== next) { return; }
      coming = null;
      next.contentDocument.querySelectorAll("a[href]").forEach((a) => { // what leads away opens beside
        if (!a.getAttribute("href").startsWith("#")) { a.target = "_blank"; a.rel = "noopener noreferrer"; }
      });
      const held = frame && document.activeElement === frame;
      if (frame) {
        stand(frame, next);
        frame.remove();
      }
      next.classList.remove("coming");
      frame = next;
      if (held) { next.focus(); }
      document.body.dataset.shown = doc.sum;
    });
    next.src = "sheets/" + n + "?" + doc.sum;
    $("sheets").append(next);
  }
  // What a page keeps by its revision, ticks, timers and who reads, goes on with the next.
  function carry(old, doc) {
    const was = old.contentDocument && old.contentDocument.body && old.contentDocument.title + " " + (old.contentDocument.body.dataset.rev || "");
    const is = doc.title + " " + doc.revision;
    if (!was || was === is) { return; }
    try {
      ["ticks", "timers", "who"].forEach((what) => {
        const kept = localStorage.getItem(what + " " + was);
        if (kept !== null) {
          localStorage.setItem(what + " " + is, kept);
          localStorage.removeItem(what + " " + was);
        }
      });
    } catch (e) { /* nothing is kept here */ }
  }
  // The sheet that is read stays, at the same height.
  function stand(old, next) {
    const from = old.contentWindow, to = next.contentWindow;
    if (!from || !to) { return; }
    let place = from.scrollY, best = null;
    from.document.querySelectorAll(".sheet").forEach((s) => {
      if (s.getBoundingClientRect().top <= 100) { best = s; }
    });
    const same = best && to.document.getElementById(best.id);
    if (same) { place = same.getBoundingClientRect().top + to.scrollY - best.getBoundingClientRect().top; }
    to.scrollTo({ top: place, left: from.scrollX, behavior: "instant" });
    const fragment = from.location.hash;
    if (fragment) { to.history.replaceState(null, "", fragment); }
  }
  $("document").addEventListener("change", () => { chosen = $("document").value; sheets(); });
}());
