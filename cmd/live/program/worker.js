'use strict';
// The worker of a page that holds the program: {program, name, text} starts it (the text in base64), {id, message} is answered with
// {id, answer}, and {failed} says why it can't go on. Full figures are worked out a step at a time by the page's own messages,
// so that a change never waits for more than one step.
(function () {
  var waiting = [], answer = null, begun = false;

  // unpacked turns two letters into 13 bits; in front stands how many bytes at the end are none.
  function unpacked(text) {
    var digit = new Uint8Array(128), out = new Uint8Array(((text.length - 1) / 2 * 13 >> 3) - Number(text[0])), n = 0, v = 0, held = 0, i;
    for (i = 33; i < 127; i++) { if ('<>&'.indexOf(String.fromCharCode(i)) < 0) { digit[i] = n++; } }
    for (i = 1, n = 0; i < text.length; i += 2) {
      v = v << 13 | (digit[text.charCodeAt(i)] * 91 + digit[text.charCodeAt(i + 1)]);
      for (held += 13; held >= 8 && n < out.length;) { held -= 8; out[n++] = v >>> held; }
      v &= (1 << held) - 1;
    }
    return out;
  }

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
    var open = new Response(new Blob([unpacked(m.program)]).stream().pipeThrough(new DecompressionStream('gzip')));
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
