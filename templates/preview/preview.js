// Waits for the next version of the pages and loads it; asks only this server.
const version = Number(document.currentScript.dataset.version);

async function follow() {
  for (;;) {
    try {
      const answer = await fetch(`/~changes?${version}`);
      const next = Number(await answer.text());
      if (next > version) {
        location.reload();
        return;
      }
    } catch {
      // The preview was stopped, or is starting again.
      await new Promise((resolve) => setTimeout(resolve, 1000));
    }
  }
}

follow();
