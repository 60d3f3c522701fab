
(function () {
  "use strict";
  var key = "ticks " + location.pathname + " " + (document.body.getAttribute("data-rev") || "");
  var boxes = document.querySelectorAll("input[type=checkbox]");
  var kept = {};
  try { kept = JSON.parse(localStorage.getItem(key)) || {}; } catch (e) { kept = {}; }
  boxes.forEach(function (box) {
    box.checked = kept[box.id] === 1;
    box.addEventListener("change", function () {
      if (box.checked) { kept[box.id] = 1; } else { delete kept[box.id]; }
      try { localStorage.setItem(key, JSON.stringify(kept)); } catch (e) { /* not kept, still ticked */ }
    });
  });
})();
