"use strict";
// Finds recipes by the words of their names, of what goes into them and of what they say.
(() => {
  const book = /*BOOK*/[];
  const fold = (s) => s.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const words = (s) => fold(s).split(/[^\p{L}\p{N}]+/u).filter(Boolean);
  for (const r of book) {
    r.names = words(r.t + " " + (r.a || ""));
    r.things = (r.i || []).map(words);
    r.rest = words(r.c + " " + (r.x || ""));
  }
  // a word is found where one begins with it, in one number or the other
  const begins = (list, w) => list.some((x) => x.startsWith(w) || (w.length > 3 && w.endsWith("s") && x === w.slice(0, -1)));
  const judge = (r, w) => begins(r.names, w) ? 100 : r.things.some((t) => begins(t, w)) ? 10 : begins(r.rest, w) ? 1 : 0;
  const search = (text) => {
    const asked = words(text);
    if (!asked.length) return null;
    const out = [];
    for (const r of book) {
      let worth = 0;
      if (asked.every((w) => { const n = judge(r, w); worth += n; return n; })) out.push({ r, worth, with: r.i ? r.i.filter((_, k) => asked.some((w) => begins(r.things[k], w))) : [] });
    }
    return out.sort((a, b) => b.worth - a.worth || book.indexOf(a.r) - book.indexOf(b.r));
  };
  const $ = (id) => document.getElementById(id);
  const q = $("q"), found = $("found"), count = $("count"), hits = $("hits");
  const show = () => {
    const list = search(q.value);
    found.hidden = !list;
    document.body.classList.toggle("finding", !!list);
    hits.textContent = "";
    if (!list) { count.textContent = ""; return; }
    count.textContent = list.length === 0 ? "Nothing here has these words." : list.length === 1 ? "1 recipe" : list.length + " recipes";
    for (const h of list) {
      const li = document.createElement("li"), a = document.createElement("a");
      a.href = h.r.u;
      a.textContent = h.r.t;
      li.append(a, " ");
      const say = document.createElement("span");
      say.textContent = [h.r.a && "also called " + h.r.a, h.r.c, h.with.length && "with " + h.with.join(", ")].filter(Boolean).join(" · ");
      li.append(say);
      hits.append(li);
    }
  };
  q.addEventListener("input", show);
  q.form.addEventListener("submit", (e) => { e.preventDefault(); show(); });
  const given = new URLSearchParams(location.search).get("q");
  if (given) { q.value = given; show(); }
})();
