'use strict';
(function () {
  var root = document.documentElement, kind = of(document.body, 'transport');
  var token = location.hash.slice(1), page = 'p' + Math.random().toString(36).slice(2);
  var queue = [], busy = false, stamp = '', left = 0, dirty = false, later = 0, typing = 0, state = one('#state'), spoken = '', speakAt = 0, last = null, theirs, dialog = one('#save'), saved = one('#saved');
  var ask = kind === 'worker' ? byWorker() : byHost;

  function all(selector, within) { return Array.from((within || document).querySelectorAll(selector)); }
  function one(selector) { return document.querySelector(selector); }
  function of(e, name) { return e.getAttribute('data-' + name); }
  function has(e, name) { return e.hasAttribute('data-' + name); }
  function mark(name, value) { root.setAttribute('data-' + name, value); }
  function on(what, f) { document.addEventListener(what, f); }

  // The token stands behind the # of the address, which no browser sends by itself.
  function byHost(message) {
    return post('/do', message).then(function (r) {
      if (!r.ok) { throw new Error(r.status === 403 ? 'the program does not know this page: open the address that it printed' : 'the program answers ' + r.status); }
      return r.json();
    });
  }

  function post(path, what) {
    return fetch(path, { method: 'POST', keepalive: path === '/bye', cache: 'no-store', headers: { 'Content-Type': 'application/json', 'X-Hushwake-Token': token }, body: JSON.stringify(what) });
  }

  // byWorker starts the program inside the page.
  function byWorker() {
    var source = one('#worker').textContent, worker = new Worker(URL.createObjectURL(new Blob([source], { type: 'text/javascript' })));
    var waiting = {}, count = 0;
    function fail(e) { Object.keys(waiting).forEach(function (id) { waiting[id][1](new Error(e.message || 'the program inside the page has stopped')); delete waiting[id]; }); }
    worker.onerror = fail;
    worker.onmessage = function (e) {
      if (e.data.failed) { return fail({ message: e.data.failed }); }
      waiting[e.data.id][0](JSON.parse(e.data.answer));
      delete waiting[e.data.id];
    };
    worker.postMessage({ program: one('#program').textContent, name: of(document.body, 'name'), text: one('#boat-file').textContent });
    return function (message) {
      return new Promise(function (done, failed) {
        waiting[++count] = [done, failed];
        worker.postMessage({ id: count, message: JSON.stringify(message) });
      });
    };
  }

  // send queues a message; a later value for a field replaces one that waits.
  function send(message) {
    clearTimeout(later);
    message.page = page;
    message.stamp = stamp;
    queue = queue.filter(function (m) { return !(m.op === message.op && m.op === 'set' && m.at === message.at); });
    queue.push(message);
    pump();
    return message;
  }

  function pump() {
    if (busy || !queue.length) { return; }
    var message = queue.shift();
    busy = true;
    if (message.op !== 'further') { working(true); }
    ask(message).then(apply, lost).then(function (ok) {
      busy = false;
      if (message.after) { message.after(ok); }
      if (queue.length) { return pump(); }
      working(false);
      if (left > 0 && ok) { // the full form follows in quiet
        later = setTimeout(function () { if (!queue.length) { queue.push({ op: 'further', page: page, stamp: stamp }); pump(); } }, message.op === 'further' ? 0 : 700);
      }
    });
  }

  // working dims every level: it belongs to the text before.
  function working(on) {
    root.toggleAttribute('data-working', on);
    all('[data-level]').forEach(function (e) { e.setAttribute('aria-busy', on ? 'true' : 'false'); });
    if (on) { state.textContent = 'working…'; }
  }

  function lost(e) {
    state.textContent = 'no answer: ' + e.message;
    mark('lost', '');
  }

  function apply(a) {
    var home = document.activeElement.closest('[data-fragment]'), was = key(document.activeElement), value = document.activeElement.value, from = document.activeElement.selectionStart, typed = document.activeElement === last;
    Object.keys(a.fragments).forEach(function (id) { place(one('[data-fragment="' + id + '"]'), a.fragments[id]); });
    all('[aria-invalid]').forEach(function (e) { for (var d = e.closest('details'); d; d = d.parentElement.closest('details')) { d.open = true; } });
    stamp = a.stamp;
    left = a.left;
    dirty = a.dirty;
    root.toggleAttribute('data-lost', false);
    root.toggleAttribute('data-dirty', dirty);
    mark('stamp', a.figures ? a.figures.stamp : '');
    mark('text', a.stamp);
    mark('form', a.form);
    state.textContent = a.errors.length ? 'something is wrong: see below' : a.form === 'quick' ? 'quick figures; the full ones follow' : a.form === 'full' ? 'full figures' : '';
    refocus(was, home, value, from, typed);
    speak();
    mark('ready', 'yes');
    return a;
  }

  // place puts a fragment in; folds stay as they were left.
  function place(at, html) {
    if (!at) { return; }
    var folds = {};
    all('details[id]', at).forEach(function (d) { folds[d.id] = d.open; });
    at.innerHTML = html;
    all('details[id]', at).forEach(function (d) { if (d.id in folds) { d.open = folds[d.id]; } });
  }

  // key finds an element again after its fragment was drawn anew.
  function key(e) {
    if (!e || e === document.body) { return ''; }
    if (e.id) { return '#' + CSS.escape(e.id); }
    return e.tagName + ['data-op', 'data-at', 'data-to', 'data-save'].map(function (n) { return e.hasAttribute(n) ? '[' + n + '="' + CSS.escape(e.getAttribute(n)) + '"]' : ''; }).join('');
  }

  function refocus(was, home, value, from, typed) {
    if (!was || document.activeElement !== document.body) { return; }
    var e = one(was) || home; // what is gone leaves it to its piece
    if (!e) { return; }
    if (e === home) { e.tabIndex = -1; }
    e.focus({ preventScroll: true });
    if (e.tagName === 'INPUT') {
      if (typed && value !== undefined) { e.value = value; last = e; }
      if (from !== null && from !== undefined) { e.setSelectionRange(from, from); }
    }
  }

  // speak reads level and advice aloud, at most once a second, once all is worked out.
  function speak() {
    var say = one('[data-say]'), text = say ? one('.result [data-level]').textContent + ' ' + say.textContent : '';
    clearTimeout(speakAt);
    if (text !== spoken) { speakAt = setTimeout(function () { one('#spoken').textContent = spoken = text; }, 1000); }
  }

  function set(e) {
    clearTimeout(typing);
    var to = e.value.trim();
    if (of(e, 'sent') === to) { return; }
    e.setAttribute('data-sent', to);
    send(to === '' ? { op: 'unknown', at: of(e, 'at') } : { op: 'set', at: of(e, 'at'), to: to });
  }

  on('input', function (ev) {
    var e = ev.target;
    if (e.tagName !== 'INPUT' || !has(e, 'at')) { return; }
    last = e;
    clearTimeout(typing);
    typing = setTimeout(function () { set(e); }, 600);
  });

  on('change', function (ev) {
    var e = ev.target;
    last = null;
    if (has(e, 'at')) { set(e); } else if (has(e, 'op')) { send({ op: of(e, 'op'), to: e.value }); }
  });

  on('submit', function (ev) {
    var f = ev.target;
    if (!has(f, 'op')) { return; }
    ev.preventDefault();
    var message = { op: of(f, 'op') };
    new FormData(f, ev.submitter).forEach(function (v, k) { message[k] = k in message ? message[k] + '\n' + v : String(v); }); // several controls of one name: a line each
    send(message);
  });

  on('click', function (ev) {
    var b = ev.target.closest('button, a.skip');
    if (!b || b.getAttribute('aria-disabled') === 'true') { return; }
    if (b.matches('a.skip')) { ev.preventDefault(); return one('main').focus(); }
    if (has(b, 'save')) { return review(); }
    if (has(b, 'op') && b.type === 'button') {
      var message = { op: of(b, 'op') };
      ['at', 'to', 'id', 'layout'].forEach(function (n) { if (b.hasAttribute('data-' + n)) { message[n] = b.getAttribute('data-' + n); } });
      send(message);
    }
  });

  on('keydown', function (ev) {
    var line = ev.target.closest('.speed-line');
    if (line) {
      var by = { ArrowLeft: -25, ArrowDown: -25, ArrowRight: 25, ArrowUp: 25, PageUp: 100, PageDown: -100, Home: -1e9, End: 1e9 }[ev.key];
      if (by) { ev.preventDefault(); speed(line, rpmAt(line, 'now') + by); }
    } else if ((ev.ctrlKey || ev.metaKey) && ev.key.toLowerCase() === 'z' && !/INPUT|TEXTAREA/.test(ev.target.tagName)) {
      ev.preventDefault();
      send({ op: ev.shiftKey ? 'redo' : 'undo' });
    }
  });

  function rpmAt(line, what) { return +line.getAttribute('aria-value' + what); }

  // speed moves the line and tells its speed when it rests.
  function speed(line, rpm) {
    var f = line.ownerSVGElement, low = rpmAt(line, 'min'), high = rpmAt(line, 'max');
    rpm = Math.round(Math.max(low, Math.min(high, rpm)));
    var x = +of(f, 'low') + (rpm - low) / (high - low) * (of(f, 'high') - of(f, 'low'));
    line.setAttribute('transform', 'translate(' + x + ' 0)');
    line.setAttribute('aria-valuenow', rpm);
    line.setAttribute('aria-valuetext', rpm + ' rpm');
    clearTimeout(typing);
    typing = setTimeout(function () { send({ op: 'set', at: of(line, 'at'), to: rpm + ' rpm' }); }, 300);
  }

  on('pointerdown', function (ev) {
    var line = ev.target.closest('.speed-line');
    if (!line) { return; }
    ev.preventDefault();
    line.focus();
    var f = line.ownerSVGElement, low = +of(f, 'low');
    function move(e) {
      var box = f.getBoundingClientRect(), x = (e.clientX - box.left) / box.width * f.viewBox.baseVal.width;
      speed(line, rpmAt(line, 'min') + (x - low) / (of(f, 'high') - low) * (rpmAt(line, 'max') - rpmAt(line, 'min')));
    }
    function end() { document.removeEventListener('pointermove', move); document.removeEventListener('pointerup', end); }
    on('pointermove', move);
    on('pointerup', end);
  });

  // review shows what saving would change.
  function review() {
    send({ op: 'diff' }).after = function () {
      saved.textContent = '';
      all('.clash').forEach(function (e) { e.hidden = true; });
      if (!dialog.open) { dialog.showModal(); }
    };
  }

  dialog.addEventListener('submit', function (ev) {
    var act = ev.submitter ? ev.submitter.value : '';
    if (act === 'theirs') { send({ op: 'replace-text', to: theirs }); } else if (act === 'save' || act === 'over') { ev.preventDefault(); keep(act === 'over'); }
  });

  function keep(force) {
    if (kind === 'worker') { return download(); }
    var name = one('#save-as');
    post('/save', { stamp: stamp, name: name ? name.value : '', force: force }).then(function (r) {
      return r.ok ? done('Saved.') : r.json().then(function (why) {
        saved.textContent = why.message + '. ' + (why.hint || '');
        theirs = why.on_disk;
        all('.clash').forEach(function (e) { e.hidden = theirs === undefined; });
        if (theirs !== undefined) { send({ op: 'against', to: theirs }); }
      });
    }).catch(function (e) { saved.textContent = 'It was not saved: ' + e.message; });
  }

  function done(words) {
    dialog.close();
    send({ op: 'saved' });
    one('#spoken').textContent = words;
  }

  function download() {
    send({ op: 'text' }).after = function (a) {
      if (!a) { return; }
      var link = document.createElement('a');
      link.href = URL.createObjectURL(new Blob([a.text], { type: 'application/yaml' }));
      link.download = of(document.body, 'name') || 'boat.yaml';
      link.click();
      done('Handed to the downloads.');
    };
  }

  window.addEventListener('beforeunload', function (ev) { if (kind === 'worker' && dirty) { ev.preventDefault(); } });
  if (kind !== 'worker') {
    setInterval(function () { post('/ping', { page: page }).catch(lost); }, 15000);
    window.addEventListener('pagehide', function () { post('/bye', { page: page }).catch(function () {}); });
  }
  send({ op: 'show' });
})();
