
(function () {
  "use strict";
  // The menu and its revision: ticks outlive a move of the file, not a change of its text.
  var revision = document.title + " " + (document.body.getAttribute("data-rev") || "");
  function load(name) {
    try { return JSON.parse(localStorage.getItem(name + " " + revision)) || {}; } catch (e) { return {}; }
  }
  function keep(name, what) {
    try { localStorage.setItem(name + " " + revision, JSON.stringify(what)); } catch (e) { /* not kept, still there */ }
  }
  function make(tag, cls, text) {
    var n = document.createElement(tag);
    if (cls) { n.className = cls; }
    if (text) { n.textContent = text; }
    return n;
  }

  // Ticks.
  var ticks = load("ticks");
  document.querySelectorAll("input[type=checkbox]").forEach(function (box) {
    box.checked = ticks[box.id] === 1;
    box.addEventListener("change", function () {
      if (box.checked) { ticks[box.id] = 1; } else { delete ticks[box.id]; }
      keep("ticks", ticks);
    });
  });

  // Timers: a step's minutes become a button. When each ends is kept, so that
  // a page that is closed by mistake goes on where it was.
  var ends = load("timers"), timers = {}, rung = {};
  var bar = make("section", "timers"), list = make("ul"), told = make("p", "vh");
  bar.setAttribute("aria-label", "Timers");
  bar.hidden = true;
  told.setAttribute("role", "status");
  bar.appendChild(list);
  document.body.appendChild(bar);
  document.body.appendChild(told);

  function left(ms) {
    var s = Math.max(0, Math.ceil(ms / 1000)), h = Math.floor(s / 3600), m = Math.floor(s / 60) % 60;
    s = s % 60;
    return (h ? h + ":" + (m < 10 ? "0" : "") : "") + m + ":" + (s < 10 ? "0" : "") + s;
  }
  var sound = null;
  function ring() {
    if (navigator.vibrate) { navigator.vibrate([300, 150, 300]); }
    try {
      var o = sound.createOscillator(), g = sound.createGain();
      g.gain.value = 0.2;
      o.frequency.value = 880;
      o.connect(g);
      g.connect(sound.destination);
      o.start();
      o.stop(sound.currentTime + 0.5);
    } catch (e) { /* no sound: it is written too */ }
  }
  function stop(id) {
    delete ends[id];
    delete rung[id];
    keep("timers", ends);
    draw();
  }
  function start(id) {
    try { sound = sound || new AudioContext(); } catch (e) { /* no sound */ }
    ends[id] = Date.now() + timers[id].minutes * 60000;
    keep("timers", ends);
    draw();
  }
  function draw() {
    var any = false;
    Object.keys(timers).forEach(function (id) {
      var t = timers[id], runs = id in ends, ms = runs ? ends[id] - Date.now() : 0;
      t.button.setAttribute("aria-pressed", runs ? "true" : "false");
      t.clock.textContent = runs ? (ms > 0 ? left(ms) : "time is up") : "";
      if (runs && !t.item) {
        t.item = make("li");
        t.off = make("button", "timer");
        t.off.type = "button";
        t.off.appendChild(make("span", "vh", "Stop the timer: "));
        t.off.appendChild(make("span", "", t.name + " "));
        t.face = t.off.appendChild(make("b"));
        t.off.addEventListener("click", function () { stop(id); t.button.focus(); });
        t.item.appendChild(t.off);
      }
      if (runs) {
        any = true;
        if (!t.item.parentNode) { list.appendChild(t.item); }
        t.face.textContent = ms > 0 ? left(ms) : "time is up";
        t.off.classList.toggle("up", ms <= 0);
        if (ms <= 0 && (rung[id] || 0) < 5) {
          if (!rung[id]) { told.textContent = "Time is up: " + t.name; }
          rung[id] = (rung[id] || 0) + 1;
          ring();
        }
      } else if (t.item && t.item.parentNode) {
        list.removeChild(t.item);
      }
    });
    bar.hidden = !any;
    document.body.classList.toggle("timing", any);
  }
  document.querySelectorAll(".margin li[data-min], .look li[data-min]").forEach(function (li, n) {
    var id = "m" + n, button = make("button", "timer"), clock = make("b");
    var step = li.closest(".step"), sheet = li.closest(".sheet");
    var mark = sheet && sheet.querySelector("h2 .mark b"), no = step && step.querySelector(".no");
    var name = (mark ? mark.textContent : "") + (no ? no.textContent : "");
    button.type = "button";
    button.appendChild(make("span", "vh", "Timer: "));
    button.appendChild(make("span", "", li.textContent));
    button.appendChild(clock);
    li.textContent = "";
    li.appendChild(button);
    timers[id] = { minutes: Number(li.getAttribute("data-min")), button: button, clock: clock, name: (name + " " + button.children[1].textContent).trim() };
    button.addEventListener("click", function () { if (id in ends) { stop(id); } else { start(id); } });
  });
  Object.keys(ends).forEach(function (id) { if (!timers[id]) { delete ends[id]; } });

  // Who is reading: a cook may see only what is theirs. What is read is kept.
  var link = null, cooks = [], me = load("who").name || "", nav = document.querySelector("nav.sheets");
  document.querySelectorAll(".board th[data-cook]").forEach(function (th) {
    if (cooks.indexOf(th.dataset.cook) < 0) { cooks.push(th.dataset.cook); }
  });
  if (cooks.indexOf(me) < 0) { me = ""; }
  function others(who) { // whether a list of cooks leaves out who is reading
    return me && who && who.split(", ").indexOf(me) < 0;
  }
  function off(part, yes) { part.classList.toggle("off", !!yes); } // on the screen only: paper has all
  function mine() {
    document.querySelectorAll("[data-cook]").forEach(function (cell) { off(cell, others(cell.dataset.cook)); });
    document.querySelectorAll(".board tbody tr:not(.bar)").forEach(function (row) {
      off(row, !Array.prototype.some.call(row.querySelectorAll("td"), function (td) { return !td.classList.contains("off") && td.textContent; }));
    });
    document.querySelectorAll("tbody .group .name").forEach(function (name) {
      var whose = name.textContent.split(" \u00b7 ").pop();
      if (cooks.indexOf(whose) >= 0) { off(name.closest("tbody"), others(whose)); }
    });
    document.querySelectorAll(".sheet").forEach(function (sheet) {
      var whose = Array.prototype.map.call(sheet.querySelectorAll(".step .who"), function (w) { return w.textContent; });
      off(sheet, whose.length > 0 && whose.every(others));
      sheet.querySelectorAll(".step").forEach(function (step) {
        var who = step.querySelector(".who");
        step.classList.toggle("mine", !!(me && who && !others(who.textContent)));
      });
      var to = nav && sheet.id && nav.querySelector("a[href='#" + sheet.id + "']");
      if (to) { off(to.parentNode, sheet.classList.contains("off")); }
    });
  }
  var on = make("section", "onnow");
  on.setAttribute("aria-label", "On now");
  on.hidden = true;
  if (cooks.length > 1 && nav) {
    var ask = make("section", "reader"), says = make("p", "", "Who is reading?"), keys = [];
    ask.appendChild(says);
    says.id = "reader";
    ask.setAttribute("role", "group");
    ask.setAttribute("aria-labelledby", "reader");
    [""].concat(cooks).forEach(function (name) {
      var b = make("button", "timer", name || "Everybody");
      b.type = "button";
      b.addEventListener("click", function () {
        me = name;
        keep("who", { name: me });
        press();
      });
      keys.push([b, name]);
      ask.appendChild(b);
    });
    nav.parentNode.insertBefore(ask, nav);
    var press = function () {
      keys.forEach(function (k) { k[0].setAttribute("aria-pressed", k[1] === me ? "true" : "false"); });
      mine();
      now();
    };
    press();
  }
  if (nav) { nav.parentNode.insertBefore(on, nav); }

  // Now, by the kitchen's clock: what each cook is at, a line through the chart, and the
  // row that is on.
  function local() {
    var d = new Date(), zone = document.body.dataset.zone, p = {};
    try {
      new Intl.DateTimeFormat("en-GB", { timeZone: zone || undefined, year: "numeric", month: "numeric", day: "numeric", hour: "numeric", minute: "numeric", hourCycle: "h23" })
        .formatToParts(d).forEach(function (q) { p[q.type] = +q.value; });
      return Date.UTC(p.year, p.month - 1, p.day, p.hour, p.minute) / 60000;
    } catch (e) { // a zone that the browser does not know
      return Math.floor(d.getTime() / 60000) - d.getTimezoneOffset();
    }
  }
  function minutesInto(day) {
    var d = day.split("-");
    return local() - Date.UTC(+d[0], +d[1] - 1, +d[2]) / 60000;
  }
  function clockOf(row) { return row.querySelector(".clock").textContent; }
  function onNow() {
    var lines = [];
    document.querySelectorAll(".board tbody[data-day]").forEach(function (body) {
      var m = minutesInto(body.dataset.day);
      if (m < 0 || m >= 1440) { return; }
      cooks.forEach(function (cook) {
        var at = null, next = null;
        body.querySelectorAll("tr[data-at]").forEach(function (row) {
          var cell = Array.prototype.find.call(row.querySelectorAll("td[data-cook]"), function (td) { return td.dataset.cook === cook && td.textContent; });
          if (!cell) { return; }
          if (+row.dataset.at <= m) { at = [row, cell]; } else { next = next || [row, cell]; }
        });
        if ((at || next) && !others(cook)) { lines.push([cook, at, next]); }
      });
    });
    on.textContent = "";
    on.hidden = !lines.length;
    lines.forEach(function (l) {
      var p = make("p");
      p.appendChild(make("b", "", l[0] + " "));
      [l[1], l[2]].forEach(function (x, i) {
        if (!x) { return; }
        p.appendChild(document.createTextNode((i ? " next " : "") + clockOf(x[0]) + " "));
        x[1].querySelectorAll(".post").forEach(function (post) {
          var s = make("span", i ? "" : "at");
          s.innerHTML = post.innerHTML;
          s.querySelectorAll("a").forEach(function (a) { a.replaceWith(a.textContent); });
          p.appendChild(s);
        });
      });
      on.appendChild(p);
    });
  }
  function now() {
    var n = local(), clock = ("0" + Math.floor(n / 60) % 24).slice(-2) + ":" + ("0" + n % 60).slice(-2), any = null;
    onNow();
    document.querySelectorAll("svg.chart[data-day]").forEach(function (svg) {
      var m = minutesInto(svg.dataset.day), knots = svg.dataset.knots.split(" ").map(function (k) { return k.split(",").map(Number); });
      var from = knots[0][0], to = knots[knots.length - 1][0];
      var line = svg.querySelector(".now");
      if (m < from || m > to) {
        if (line) { line.remove(); }
        return;
      }
      if (!line) {
        line = document.createElementNS("http://www.w3.org/2000/svg", "path");
        line.setAttribute("class", "now");
        svg.appendChild(line);
      }
      var k = 1; // time runs evenly between two knots
      while (k < knots.length - 1 && knots[k][0] < m) { k++; }
      var a = knots[k - 1], b = knots[k], x = (a[1] + (m - a[0]) / (b[0] - a[0]) * (b[1] - a[1])).toFixed(1);
      line.setAttribute("d", "M" + x + " 16V" + svg.getAttribute("height") + "M" + x + " 16l-6 -9h12z");
    });
    document.querySelectorAll("table").forEach(function (table) {
      table.querySelectorAll("tbody[data-day]").forEach(function (body) {
        var m = minutesInto(body.dataset.day), on = null;
        body.querySelectorAll("tr[data-at]").forEach(function (row) {
          row.classList.remove("now");
          row.removeAttribute("aria-current");
          if (m >= 0 && m < 1440 && +row.dataset.at <= m) { on = row; }
        });
        if (on) {
          on.classList.add("now");
          on.setAttribute("aria-current", "time");
          any = any || on;
        }
      });
    });
    var list = nav && nav.querySelector("ul");
    if (any && list && !link) {
      link = make("li");
      var a = link.appendChild(make("a", "", "Now"));
      a.href = "#now";
      list.insertBefore(link, list.firstChild);
    }
    if (link) { link.firstChild.textContent = "Now " + clock; link.hidden = !any; }
    var old = document.getElementById("now");
    if (old && old !== any) { old.removeAttribute("id"); }
    if (any) { any.id = "now"; }
  }
  draw();
  now();
  setInterval(draw, 1000);
  setInterval(now, 15000);
  document.addEventListener("visibilitychange", function () { draw(); now(); });
})();
