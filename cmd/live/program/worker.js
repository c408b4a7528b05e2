'use strict';
// The worker of a page that holds the program: {program, name, text} in base64 starts it, {id, message} is answered with
// {id, answer}, and {failed} says why it can't go on. Full figures are worked out a step at a time by the page's own messages,
// so that a change never waits for more than one step.
(function () {
  var waiting = [], answer = null, begun = false;

  function bytes(text) { return Uint8Array.from(atob(text), function (c) { return c.charCodeAt(0); }); }

  function failed(e) { self.postMessage({ failed: (e && e.message) || String(e) }); }

  function reply(m) {
    try { self.postMessage({ id: m.id, answer: answer(m.message) }); } catch (e) { failed(e); }
  }

  function begin(m) {
    if (typeof DecompressionStream !== 'function' || typeof WebAssembly !== 'object') {
      throw new Error('this browser is too old to change anything here; what it shows is the last result');
    }
    var go = new Go();
    var open = new Response(new Blob([bytes(m.program)]).stream().pipeThrough(new DecompressionStream('gzip')));
    return open.arrayBuffer().then(function (raw) { return WebAssembly.instantiate(raw, go.importObject); }).then(function (made) {
      go.run(made.instance).then(function () { failed(new Error('the program inside the page has stopped')); });
      var desk = self.hushwake(m.name, new TextDecoder().decode(bytes(m.text)));
      if (typeof desk !== 'function') { throw new Error(desk); }
      answer = desk;
      waiting.splice(0).forEach(reply);
    });
  }

  self.onmessage = function (e) {
    if (!begun) {
      begun = true;
      Promise.resolve().then(function () { return begin(e.data); }).catch(failed);
    } else if (answer) { reply(e.data); } else { waiting.push(e.data); }
  };
})();
