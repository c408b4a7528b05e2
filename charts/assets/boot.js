(function () {
  'use strict';
  var root = document.documentElement;
  var theme = document.getElementById('theme');
  var paper = document.getElementById('paper');
  var charts = new Map(); // by node
  var queue = [];
  var work = Promise.resolve(); // what is left of the queue
  var library = null; // the promise of it
  var colourKeys = { color: 1, borderColor: 1, backgroundColor: 1 };

  function each(selector, what) { Array.prototype.forEach.call(document.querySelectorAll(selector), what); }

  // unpack brings the chart library in when the first chart is wanted: a page that is only read never pays for it.
  function unpack() {
    if (!library) {
      library = new Promise(function (done) {
        var text = atob(document.getElementById('library').textContent);
        var bytes = new Uint8Array(text.length);
        for (var i = 0; i < text.length; i++) { bytes[i] = text.charCodeAt(i); }
        done(new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))).blob());
      }).then(pause).then(start).then(pause).then(function () { // the first chart of all costs most: a small one, not shown, takes a part of it
        return pause(echarts.init(document.createElement('div'), null, { renderer: 'svg', width: 90, height: 60 }));
      }).then(function (first) {
        first.setOption({ animation: false, xAxis: {}, yAxis: {}, series: [{ type: 'line', data: [[0, 0], [1, 1]] }] });
        return pause(first);
      }).then(function (first) {
        first.dispose();
        return pause();
      }).catch(function () {
        each('.chart', function (c) { c.textContent = 'This browser can\u2019t unpack the chart; its numbers stand in the table.'; c.className = 'empty'; });
        throw new Error('no chart library');
      });
    }
    return library;
  }

  // start runs the library from a file of its own, which a browser compiles beside the page, or in place where the browser
  // knows no file by its hash.
  function start(source) {
    return new Promise(function (done) {
      var script = document.createElement('script'), file = URL.createObjectURL(source);
      script.integrity = document.getElementById('library').getAttribute('data-hash');
      script.onload = function () { URL.revokeObjectURL(file); done(); };
      script.onerror = function () {
        script = document.createElement('script');
        done(source.text().then(function (text) { script.textContent = text; document.head.appendChild(script); }));
      };
      script.src = file;
      document.head.appendChild(script);
    });
  }

  // pause lets the page answer its reader before the next piece of work.
  function pause(value) { return new Promise(function (done) { setTimeout(function () { done(value); }, 0); }); }

  function property(name) { return getComputedStyle(root).getPropertyValue('--' + name).trim(); }

  // paint copies options and puts the page's colours in; only keys that hold colours are touched.
  function paint(value, key) {
    if (typeof value === 'string') {
      return colourKeys[key] === 1 && value.slice(0, 4) === 'var:' ? property(value.slice(4)) : value;
    }
    if (Array.isArray(value)) {
      return value.map(function (v) { return paint(v, key); });
    }
    if (value && typeof value === 'object') {
      var copy = {};
      Object.keys(value).forEach(function (k) { copy[k] = paint(value[k], k); });
      return copy;
    }
    return value;
  }

  // clear moves the number at the end of a line off the limit's line, which runs on behind it.
  function clear(s, o) {
    var limits = o.series[0].markLine, end = s.data[s.data.length - 1], y = o.yAxis[0];
    var over = limits && end ? end[1] - limits.data[0].yAxis : NaN;
    return [0, Math.abs(over) < 0.05 * (y.max - y.min) ? (over < 0 ? 9 : -9) : 0];
  }

  // crosses turns a series of [x, y, left, right, low, high] into two thin lines for each.
  function crosses(s) {
    if (s.type !== 'custom') { return [s]; }
    return (s.data || []).map(function (d) {
      var v = d.value;
      return {
        type: 'line', name: s.name, symbol: 'none', silent: true, tooltip: { show: false },
        data: [[v[2], v[1]], [v[3], v[1]], ['-', '-'], [v[0], v[4]], [v[0], v[5]]],
        lineStyle: { color: d.itemStyle.color, width: 1.5, opacity: 0.75 }
      };
    });
  }

  function number(v) {
    return typeof v === 'number' ? String(Math.round(v * 10) / 10).replace('-', '\u2212') : '\u2013';
  }

  // grouped prints an axis value as the page prints numbers.
  function grouped(v) {
    var parts = String(Math.abs(v) < 1000 ? Math.abs(Math.round(v * 1e6) / 1e6) : Math.abs(Math.round(v))).split('.');
    parts[0] = parts[0].replace(/\B(?=(\d{3})+$)/g, '\u202f');
    return (v < 0 ? '\u2212' : '') + parts.join('.');
  }

  function last(value) { return Array.isArray(value) ? value[value.length - 1] : value; }

  // tip is plain text: the chart library draws it as such, never as markup.
  function tip(unit, axis) {
    return function (params) {
      if (!Array.isArray(params)) {
        return plain(params.name || params.seriesName || '');
      }
      var at = params.length ? params[0].axisValue : '';
      var lines = [axis + ': ' + (typeof at === 'number' ? number(at) : plain(at))];
      params.slice(0, 14).forEach(function (p) {
        lines.push(plain(p.seriesName) + ': ' + number(last(p.value)) + (unit ? ' ' + unit : ''));
      });
      return lines.join('\n');
    };
  }

  function plain(s) { return String(s).replace(/[{}|]/g, ' '); }

  function fold(text, width) {
    var out = [], line = '';
    String(text).split('\n').forEach(function (part) {
      part.split(' ').forEach(function (word) {
        if (line && (line + ' ' + word).length > width) { out.push(line); line = word; } else { line = line ? line + ' ' + word : word; }
      });
      out.push(line);
      line = '';
    });
    return out.join('\n');
  }

  function options(d, width) {
    var o = paint(d.option, '');
    var font = property('font');
    o.textStyle = { fontFamily: font, color: property('ink') };
    o.toolbox = undefined;
    var show = tip(d.unit, o.xAxis[0].name || '');
    o.tooltip.renderMode = 'richText';
    o.tooltip.confine = true;
    o.tooltip.backgroundColor = property('card');
    o.tooltip.borderColor = property('muted');
    o.tooltip.textStyle = { color: property('ink'), fontSize: 12, fontFamily: font };
    o.tooltip.formatter = function (p) { return fold(show(p), Math.max(24, Math.floor(width / 9))); };
    o.series = o.series.flatMap(crosses);
    o.series.forEach(function (s) {
      var id = typeof s.id === 'string' ? s.id.split(' ')[0] : '';
      if (id === 'named' || id === 'nameless') {
        s.endLabel = { show: id === 'named', formatter: '{a}', color: property('muted'), fontSize: 11, distance: 9 };
        s.label = undefined;
        s.silent = true;
        s.tooltip = { show: false };
      }
      if (id === 'ends') { // a layout's line ends in its number
        s.endLabel = { show: true, formatter: s.id.slice(5), color: s.lineStyle.color, fontSize: 12, fontWeight: 'bold', distance: 5, offset: clear(s, o) };
      }
      if (s.type === 'bar' || s.type === 'line' || s.type === 'scatter') {
        s.clip = s.type === 'line';
        s.emphasis = { disabled: true };
      }
      if (s.type === 'scatter' && s.label) {
        halo(s.label);
      }
      if (s.markLine) {
        s.markLine.silent = true;
        s.markLine.z = 1; // under the data and their names
        s.markLine.animation = false;
        halo(s.markLine.label);
      }
    });
    o.xAxis.concat(o.yAxis).forEach(function (a) {
      if (a.axisLabel && (a.type === 'value' || a.type === 'log')) { a.axisLabel.formatter = grouped; }
    });
    o.xAxis.forEach(function (a) { // where numbers side by side would touch, every other tick has one
      if (a.type === 'value' && a.axisLabel && (a.max - a.min) / a.maxInterval * (8 * grouped(a.max).length + 8) > width - 90) {
        a.axisLabel.formatter = function (v, i) { return i % 2 ? '' : grouped(v); };
      }
    });
    return o;
  }

  // halo keeps text readable over lines.
  function halo(label) {
    label.textBorderColor = property('card');
    label.textBorderWidth = 3;
  }

  function draw(entry) {
    var width = entry.node.clientWidth;
    if (!width) { return false; }
    var height = root.classList.contains('printing') ? Math.round(entry.height * 0.8) : entry.height; // paper is short
    entry.node.style.height = height + 'px';
    entry.chart.resize({ width: width, height: height, silent: true });
    entry.chart.setOption(options(entry.drawing, width), { notMerge: true });
    entry.width = width;
    return true; // its strokes follow with the next frame
  }

  // name puts the numbers of points where they cover neither points nor one another; those that
  // had to go far off get a line to their point.
  function name(chart, option) {
    var points = option.series.filter(function (s) { return typeof s.id === 'string' && s.id.slice(0, 6) === 'point '; });
    if (!points.length) { return; }
    var marks = points.map(function (s) {
      var at = chart.convertToPixel({ xAxisIndex: 0, yAxisIndex: 0 }, s.data[0].value);
      return { x: at[0], y: at[1], w: 18, h: 16 };
    });
    var taken = marks.slice();
    var frame = chart.getModel().getComponent('grid').coordinateSystem.getRect();
    option.series.forEach(function (s) { // no name lies on the line of a limit
      (s.markLine && s.markLine.data || []).forEach(function (m) {
        if (m.xAxis !== undefined) { taken.push({ x: chart.convertToPixel({ xAxisIndex: 0 }, m.xAxis), y: frame.y + frame.height / 2, w: 4, h: frame.height }); }
      });
    });
    var bars = option.series.flatMap(function (s) { return s.type === 'custom' ? s.data : []; }).flatMap(function (d) {
      var v = d.value, low = chart.convertToPixel({ xAxisIndex: 0, yAxisIndex: 0 }, [v[2], v[4]]), high = chart.convertToPixel({ xAxisIndex: 0, yAxisIndex: 0 }, [v[3], v[5]]);
      var at = chart.convertToPixel({ xAxisIndex: 0, yAxisIndex: 0 }, [v[0], v[1]]);
      return [{ x: (low[0] + high[0]) / 2, y: at[1], w: high[0] - low[0], h: 2 }, { x: at[0], y: (low[1] + high[1]) / 2, w: 2, h: low[1] - high[1] }];
    });
    chart.setOption({ series: points.map(function (s, i) {
      var width = 8 * s.name.length + 4;
      var at = spot(marks[i], width, marks, taken.concat(bars), frame) || spot(marks[i], width, marks, taken, frame) || { x: marks[i].x + 14, y: marks[i].y, w: width, h: 15, far: false };
      taken.push(at);
      var named = { id: s.id, label: { position: 'inside', offset: [at.x - marks[i].x, at.y - marks[i].y] } };
      if (at.far && !s.markLine) {
        named.markLine = { silent: true, symbol: 'none', label: { show: false }, lineStyle: { color: property('muted'), width: 1, type: 'solid' },
          data: [[{ x: marks[i].x, y: marks[i].y }, { x: at.x, y: at.y }]] };
      }
      return named;
    }) });
  }

  // corner stretches the circle of places to a square, whose corners lie clear of the error bars.
  function corner(v) { return Math.max(-1, Math.min(1, 1.42 * v)); }

  // own tells whether a place lies nearer to its own point than to any other that is elsewhere.
  function own(at, p, points) {
    function off(q) { return Math.hypot(at.x - q.x, at.y - q.y); }
    return points.every(function (q) { return Math.hypot(p.x - q.x, p.y - q.y) < 4 || off(q) > off(p); });
  }

  // spot is the nearest free place of that width round a point, none where all are taken.
  function spot(p, width, points, taken, frame) {
    for (var far = 0; far < 6; far++) {
      for (var k = 0; k < 16; k++) {
        var angle = [2, 6, 14, 10, 1, 7, 15, 9, 3, 5, 13, 11, 0, 8, 4, 12][k] * Math.PI / 8;
        var c = corner(Math.cos(angle)), s = -corner(Math.sin(angle));
        var at = { x: p.x + c * (10 + width / 2 + 14 * far), y: p.y + s * (16 + 14 * far), w: width, h: 15, far: far > 0 };
        if (inside(at, frame) && !over(at, p) && (far > 0 || own(at, p, points)) && !taken.some(function (t) { return t !== p && over(at, t); })) { return at; }
      }
    }
    return null;
  }

  function over(a, b) {
    return Math.abs(a.x - b.x) < (a.w + b.w) / 2 && Math.abs(a.y - b.y) < (a.h + b.h) / 2;
  }

  function inside(a, frame) {
    return a.x - a.w / 2 > frame.x && a.x + a.w / 2 < frame.x + frame.width && a.y - a.h / 2 > frame.y && a.y + a.h / 2 < frame.y + frame.height;
  }

  // want queues charts; they are drawn one at a time, with room for the reader between.
  function want(entries) {
    var idle = !queue.length;
    entries.forEach(function (e) { if (queue.indexOf(e) < 0) { queue.push(e); } });
    if (idle && queue.length) { work = unpack().then(next, function () { queue = []; }); }
    return work;
  }

  function next() {
    if (!queue.length) { return undefined; }
    var entry = queue.shift();
    if (!entry.chart) {
      if (!entry.node.clientWidth) { return pause().then(next); }
      entry.chart = echarts.init(entry.node, null, { renderer: 'svg' });
      entry.drawing = JSON.parse(entry.source.textContent);
      queue.unshift(entry);
      return pause().then(next);
    }
    if (!draw(entry)) { return pause().then(next); }
    return pause().then(function () { name(entry.chart, entry.drawing.option); }).then(pause).then(next);
  }

  function drawn(changed) {
    return Array.from(charts.values()).filter(function (e) { return e.chart && (!changed || e.node.clientWidth !== e.width); });
  }

  function dark() {
    var set = root.getAttribute('data-theme');
    return set ? set === 'dark' : matchMedia('(prefers-color-scheme: dark)').matches;
  }

  function label() {
    theme.textContent = dark() ? 'Light page' : 'Dark page';
    theme.setAttribute('aria-pressed', root.hasAttribute('data-theme') ? 'true' : 'false');
  }

  theme.addEventListener('click', function () {
    root.setAttribute('data-theme', dark() ? 'light' : 'dark');
    label();
    want(drawn());
  });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', function () { label(); want(drawn()); });

  var near = new IntersectionObserver(function (seen) {
    want(seen.filter(function (s) { return s.isIntersecting; }).map(function (s) { near.unobserve(s.target); return charts.get(s.target); }));
  }, { rootMargin: '500px 0px' });
  each('script[data-for]', function (s) {
    var node = document.getElementById(s.getAttribute('data-for'));
    var height = Number(node.getAttribute('data-height'));
    node.style.height = height + 'px'; // nothing moves when it is drawn
    charts.set(node, { node: node, height: height, source: s, width: 0 });
    near.observe(node);
  });

  var waiting = 0;
  window.addEventListener('resize', function () {
    clearTimeout(waiting);
    waiting = setTimeout(function () { want(drawn(true)); }, 120);
  });
  document.addEventListener('toggle', function () { want(drawn(true)); }, true);

  // whole makes the page ready to be printed with all its folds and charts, and gives back the way home.
  function whole() {
    var folds = [], set = root.getAttribute('data-theme');
    each('details', function (d) { folds.push([d, d.open]); d.open = true; });
    root.setAttribute('data-theme', 'light');
    root.classList.add('whole', 'printing');
    function home() {
      window.removeEventListener('afterprint', home);
      folds.forEach(function (f) { f[0].open = f[1]; });
      if (set === null) { root.removeAttribute('data-theme'); } else { root.setAttribute('data-theme', set); }
      root.classList.remove('whole', 'printing');
      want(drawn());
    }
    window.addEventListener('afterprint', home);
    return want(Array.from(charts.values())).then(function () { drawn().forEach(function (e) { e.chart.getZr().flush(); }); });
  }
  paper.addEventListener('click', function () { whole().then(function () { window.print(); }); });

  label();
  root.setAttribute('data-ready', 'yes');
})();
