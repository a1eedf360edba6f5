// First script: starts the rest and says so in plain HTML when that fails.
//
// The words stand in index.html, one paragraph per reason; nothing here needs the program.

const reasons = ['load', 'mixed', 'graphics', 'stopped', 'file'];

// Shows the paragraph of `reason`. `closable`: the app goes on behind it.
export function fail(reason, closable = false) {
  for (const known of reasons) {
    document.getElementById('failure-' + known).hidden = known !== reason;
  }
  document.getElementById('failure-reload').hidden = closable;
  document.getElementById('failure-close').hidden = !closable;
  document.getElementById('failure').hidden = false;
}

document.getElementById('failure-reload').addEventListener('click', () => location.reload());
document.getElementById('failure-close').addEventListener('click', () => {
  document.getElementById('failure').hidden = true;
});

// A fault inside the program leaves its memory in an unknown state: say so and stop.
const stopped = (error) => {
  if (error instanceof WebAssembly.RuntimeError) fail('stopped');
};
addEventListener('error', (event) => stopped(event.error));
addEventListener('unhandledrejection', (event) => stopped(event.reason));

import('./main.js')
  .then((main) => main.boot())
  .catch((error) => {
    console.error(error);
    fail(reasons.includes(error?.reason) ? error.reason : 'load');
  });
