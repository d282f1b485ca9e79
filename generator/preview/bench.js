/* Waits for the next build and shows it: the page itself where it changed, else the page that did. */
(() => {
  const { build, view, path } = document.currentScript.dataset;
  let epoch = 0;

  async function wait() {
    try {
      epoch = Number(await (await fetch(`/livereload/${epoch}/${Date.now()}`)).text());
      const asked = new URLSearchParams({ view, path, build });
      const now = await (await fetch(`/-/now?${asked}`)).json();
      if (now.build !== Number(build)) return now.go ? location.assign(now.go) : location.reload();
    } catch {
      await new Promise((resume) => setTimeout(resume, 2000));
    }
    return wait();
  }

  wait();
})();
