// No module, so that it runs where the browser refuses modules: when the program does not begin, it looks
// whether the server sends its scripts as what they are, and says so.
(() => {
  const show = (reason) => {
    for (const p of document.querySelectorAll('#failure > p[id]')) p.hidden = p.id !== 'failure-' + reason;
    document.getElementById('failure').hidden = false;
  };

  async function look() {
    for (const { src, href } of document.querySelectorAll('script[type=module], link[rel=modulepreload]')) {
      const answer = await fetch(src || href).catch(() => null);
      const type = answer?.ok ? answer.headers.get('Content-Type') ?? '' : 'javascript';
      if (/(java|ecma)script/i.test(type)) continue;
      document.getElementById('failure-what').textContent =
        `${new URL(answer.url).pathname}: ${type || 'no type'}`;
      show('type');
      return true;
    }
    return false;
  }

  addEventListener('tallyblock-failed', look); // start.js has said that something could not be loaded
  addEventListener('load', async () => {
    if (document.documentElement.dataset.begun) return;
    document.querySelector('#failure > p:last-child').hidden = true; // buttons that nothing answers
    if (!await look()) show('load');
  });
})();
