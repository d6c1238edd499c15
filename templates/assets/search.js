/* Looks for words in the places of the manual, as one types. Nothing is fetched. */
"use strict";

(() => {
  const finder = document.querySelector(".finder");
  const input = document.getElementById("finder");
  const count = document.getElementById("found-count");
  const list = document.getElementById("found");
  const MOST = 40;
  const BEFORE = 50;
  const AFTER = 110;

  const plain = (text) => text.normalize("NFKD").replace(/[\u0300-\u036f]/g, "").replace(/[‘’]/g, "'").replace(/[“”]/g, '"').toLowerCase();
  const places = manualPlaces.map(([address, experiment, name, text]) => ({
    address, experiment, name, text, searched: plain(`${experiment} ${name} ${text}`),
  }));

  const told = (number) => {
    if (number === 0) return finder.dataset.none;
    return number === 1 ? finder.dataset.one : finder.dataset.many.replace("{number}", number);
  };

  const around = (text, word) => {
    const at = Math.max(0, text.toLowerCase().indexOf(word));
    const start = Math.max(0, at - BEFORE);
    const piece = text.slice(start, at + AFTER);
    return (start > 0 ? "…" : "") + piece + (at + AFTER < text.length ? "…" : "");
  };

  const item = (place, words) => {
    const line = document.createElement("li");
    const link = document.createElement("a");
    link.href = place.address;
    link.textContent = place.name ? `${place.experiment}: ${place.name}` : place.experiment;
    const context = document.createElement("p");
    context.textContent = around(place.text, words[0]);
    line.append(link, context);
    return line;
  };

  const search = () => {
    const words = plain(input.value).split(/\s+/).filter((word) => word.length > 0);
    const found = words.length && words.join("").length > 1
      ? places.filter((place) => words.every((word) => place.searched.includes(word)))
      : [];
    list.replaceChildren(...found.slice(0, MOST).map((place) => item(place, words)));
    count.textContent = words.length && words.join("").length > 1 ? told(found.length) : "";
  };

  finder.hidden = false;
  input.addEventListener("input", search);
  search();
})();
