// The interview: a new question takes the focus, points are dragged or moved with keys, a file is read into its field.
(function () {
  var home = document.querySelector('[data-fragment="interview"]'), asked = '';
  function fields(view) { return [0, 1, 2].map(function (i) { return view.closest('form').querySelector('[data-axis="' + i + '"]'); }); }
  function metres(text) { var m = /^\s*([-+−]?[\d.]+)\s*m\s*$/.exec(text); return m ? Number(m[1].replace('−', '-')) : NaN; }
  function of(view, name) { return Number(view.getAttribute('data-' + name)); }

  // draw puts the point of every view where the fields say.
  function draw(form) {
    form.querySelectorAll('.view').forEach(function (view) {
      var at = fields(view).map(function (f) { return metres(f.value); }), s = of(view, 'scale') / 100;
      var x = of(view, 'x0') + s * at[of(view, 'across')], y = of(view, 'y0') + of(view, 'flip') * s * at[of(view, 'up')];
      if (isFinite(x) && isFinite(y)) { view.querySelector('.handle').setAttribute('transform', 'translate(' + x + ' ' + y + ')'); }
    });
  }

  function put(field, value) { if (isFinite(value)) { field.value = Math.round(value * 100) / 100 + ' m'; } }

  document.addEventListener('input', function (ev) { if (ev.target.hasAttribute('data-axis')) { draw(ev.target.form); } });

  document.addEventListener('pointerdown', function (ev) {
    var view = ev.target.closest('.view');
    if (!view) { return; }
    ev.preventDefault();
    view.querySelector('.handle').focus({ preventScroll: true });
    function move(e) {
      var box = view.getBoundingClientRect(), f = fields(view), s = of(view, 'scale') / 100, unit = view.viewBox.baseVal.width / box.width;
      put(f[of(view, 'across')], ((e.clientX - box.left) * unit - of(view, 'x0')) / s);
      put(f[of(view, 'up')], ((e.clientY - box.top) * unit - of(view, 'y0')) / s * of(view, 'flip'));
      draw(view.closest('form'));
    }
    function end() { document.removeEventListener('pointermove', move); document.removeEventListener('pointerup', end); }
    move(ev);
    document.addEventListener('pointermove', move);
    document.addEventListener('pointerup', end);
  });

  document.addEventListener('keydown', function (ev) {
    var handle = ev.target.closest('.handle'), by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[ev.key];
    if (!handle || !by) { return; }
    ev.preventDefault();
    var view = handle.closest('.view'), f = fields(view), step = ev.shiftKey ? 1 : 0.1;
    var across = f[of(view, 'across')], up = f[of(view, 'up')];
    put(across, metres(across.value) + by[0] * step);
    put(up, metres(up.value) + by[1] * step * of(view, 'flip'));
    draw(view.closest('form'));
  });

  document.addEventListener('change', function (ev) {
    var file = ev.target.id === 'file' && ev.target.files[0];
    if (file) { file.text().then(function (text) { document.getElementById('file-text').value = text; }); }
  });

  new MutationObserver(function () {
    var at = home.querySelector('[data-question]'), is = at ? at.getAttribute('data-question') : '', wrong = home.querySelector('[aria-invalid]');
    if (wrong) { wrong.focus(); } else if (is && is !== asked) { home.querySelector('#question').focus({ preventScroll: true }); home.scrollIntoView({ block: 'nearest' }); }
    asked = is;
  }).observe(home, { childList: true });
})();
