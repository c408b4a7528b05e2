(function () {
  'use strict';
  var root = document.documentElement;
  var button = document.getElementById('theme');
  var charts = [];
  var before = null; // how the page was before it was printed
  var colourKeys = { color: 1, borderColor: 1, backgroundColor: 1 };

  function property(name) {
    return getComputedStyle(root).getPropertyValue('--' + name).trim();
  }

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

  // bar draws [row, low, high] as a thick line.
  function bar(params, api) {
    var low = api.coord([api.value(1), api.value(0)]);
    var high = api.coord([api.value(2), api.value(0)]);
    return {
      type: 'rect',
      shape: { x: low[0], y: low[1] - 7, width: Math.max(high[0] - low[0], 1), height: 14, r: 3 },
      style: { fill: api.visual('color'), opacity: 0.45 }
    };
  }

  // cross draws [x, y, left, right, low, high] as two thin lines.
  function cross(params, api) {
    function line(a, b) {
      return {
        type: 'line', shape: { x1: a[0], y1: a[1], x2: b[0], y2: b[1] },
        style: { stroke: api.visual('color'), lineWidth: 1.5, opacity: 0.75, fill: 'none' }
      };
    }
    var x = api.value(0), y = api.value(1);
    return {
      type: 'group',
      children: [line(api.coord([api.value(2), y]), api.coord([api.value(3), y])),
        line(api.coord([x, api.value(4)]), api.coord([x, api.value(5)]))]
    };
  }
  var drawn = { bar: bar, cross: cross };

  function number(v) {
    return typeof v === 'number' ? String(Math.round(v * 10) / 10).replace('-', '\u2212') : '\u2013';
  }

  // grouped prints an axis value as the page prints numbers.
  function grouped(v) {
    var parts = String(Math.abs(v) < 1000 ? Math.abs(Math.round(v * 1e6) / 1e6) : Math.abs(Math.round(v))).split('.');
    parts[0] = parts[0].replace(/\B(?=(\d{3})+$)/g, '\u202f');
    return (v < 0 ? '\u2212' : '') + parts.join('.');
  }

  function last(value) {
    return Array.isArray(value) ? value[value.length - 1] : value;
  }

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

  function plain(s) {
    return String(s).replace(/[{}|]/g, ' ');
  }

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
    o.series.forEach(function (s) {
      if (s.type === 'custom') {
        s.renderItem = drawn[s.renderItem];
        s.silent = false;
      }
      if (typeof s.id === 'string' && (s.id.slice(0, 6) === 'named ' || s.id.slice(0, 9) === 'nameless ')) {
        s.endLabel = { show: s.id.charAt(4) === 'd', formatter: '{a}', color: property('muted'), fontSize: 11, distance: 9 };
        s.label = undefined;
        s.silent = true;
        s.tooltip = { show: false };
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
        s.markLine.z = 3;
        s.markLine.animation = false;
        halo(s.markLine.label);
      }
    });
    o.xAxis.concat(o.yAxis).forEach(function (a) {
      if (a.axisLabel && (a.type === 'value' || a.type === 'log')) { a.axisLabel.formatter = grouped; }
    });
    if (d.kind === 'rows') {
      rows(o, width);
    }
    return o;
  }

  // halo keeps text readable over lines.
  function halo(label) {
    label.textBorderColor = property('card');
    label.textBorderWidth = 3;
  }

  // rows puts each category's label above its bar, so that long names need no margin.
  function rows(o, width) {
    var right = o.yAxis.length > 1 ? 60 : 0;
    var label = o.yAxis[0].axisLabel;
    label.inside = true;
    label.align = 'left';
    label.verticalAlign = 'bottom';
    label.padding = [0, 0, 13, 0];
    halo(label);
    label.margin = 2;
    label.width = Math.max(120, width - 24);
    label.overflow = 'truncate';
    o.yAxis[0].z = 5;
    o.yAxis[0].axisTick = { show: false };
    if (right) {
      o.yAxis[1].axisTick = { show: false };
      o.yAxis[1].axisLabel.margin = 6;
    }
  }

  function draw(entry) {
    var width = entry.node.clientWidth;
    if (!width) { return; }
    var height = before && entry.drawing.kind !== 'rows' ? Math.round(entry.height * 0.8) : entry.height; // paper is short
    entry.node.style.height = height + 'px';
    if (!entry.chart) {
      entry.chart = echarts.init(entry.node, null, { renderer: 'svg' });
    }
    entry.chart.resize({ width: width, height: height, silent: true });
    entry.chart.setOption(options(entry.drawing, width), { notMerge: true });
    name(entry.chart, entry.drawing.option);
    entry.width = width;
    entry.chart.getZr().flush();
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
    chart.setOption({ series: points.map(function (s, i) {
      var at = spot(marks[i], 8 * s.name.length + 4, marks, taken, frame);
      taken.push(at);
      return { id: s.id, labelLayout: { x: at.x, y: at.y, align: 'center', verticalAlign: 'middle' },
        labelLine: { show: at.far, lineStyle: { color: property('muted'), width: 1 } } };
    }) });
  }

  // corner stretches the circle of places to a square, whose corners lie clear of the error bars.
  function corner(v) { return Math.max(-1, Math.min(1, 1.42 * v)); }

  // own tells whether a place lies nearer to its own point than to any other that is elsewhere.
  function own(at, p, points) {
    function off(q) { return Math.hypot(at.x - q.x, at.y - q.y); }
    return points.every(function (q) { return Math.hypot(p.x - q.x, p.y - q.y) < 4 || off(q) > off(p); });
  }

  // spot is the nearest free place of that width round a point.
  function spot(p, width, points, taken, frame) {
    for (var far = 0; far < 6; far++) {
      for (var k = 0; k < 16; k++) {
        var angle = [2, 6, 14, 10, 1, 7, 15, 9, 3, 5, 13, 11, 0, 8, 4, 12][k] * Math.PI / 8;
        var c = corner(Math.cos(angle)), s = -corner(Math.sin(angle));
        var at = { x: p.x + c * (10 + width / 2 + 14 * far), y: p.y + s * (16 + 14 * far), w: width, h: 15, far: far > 0 };
        if (inside(at, frame) && !over(at, p) && (far > 0 || own(at, p, points)) && !taken.some(function (t) { return t !== p && over(at, t); })) { return at; }
      }
    }
    return { x: p.x + 14, y: p.y, w: width, h: 15, far: false };
  }

  function over(a, b) {
    return Math.abs(a.x - b.x) < (a.w + b.w) / 2 && Math.abs(a.y - b.y) < (a.h + b.h) / 2;
  }

  function inside(a, frame) {
    return a.x - a.w / 2 > frame.x && a.x + a.w / 2 < frame.x + frame.width && a.y - a.h / 2 > frame.y && a.y + a.h / 2 < frame.y + frame.height;
  }

  function drawAll() { charts.forEach(draw); }

  function drawChanged() {
    charts.forEach(function (c) { if (c.node.clientWidth !== c.width) { draw(c); } });
  }

  function dark() {
    var set = root.getAttribute('data-theme');
    return set ? set === 'dark' : matchMedia('(prefers-color-scheme: dark)').matches;
  }

  function label() {
    button.textContent = dark() ? 'Light page' : 'Dark page';
    button.setAttribute('aria-pressed', root.hasAttribute('data-theme') ? 'true' : 'false');
  }

  button.addEventListener('click', function () {
    root.setAttribute('data-theme', dark() ? 'light' : 'dark');
    label();
    drawAll();
  });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', function () { label(); drawAll(); });

  Array.prototype.forEach.call(document.querySelectorAll('script[data-for]'), function (s) {
    var node = document.getElementById(s.getAttribute('data-for'));
    charts.push({ node: node, height: Number(node.getAttribute('data-height')), drawing: JSON.parse(s.textContent), width: 0 });
  });

  var waiting = 0;
  window.addEventListener('resize', function () {
    clearTimeout(waiting);
    waiting = setTimeout(drawChanged, 120);
  });
  document.addEventListener('toggle', function () { drawChanged(); }, true);

  window.addEventListener('beforeprint', function () {
    if (before) { return; }
    before = { theme: root.getAttribute('data-theme'), open: [] };
    Array.prototype.forEach.call(document.querySelectorAll('details:not(.long)'), function (d) {
      before.open.push([d, d.open]);
      d.open = true;
    });
    root.setAttribute('data-theme', 'light');
    root.classList.add('printing');
    drawAll();
  });
  window.addEventListener('afterprint', function () {
    if (!before) { return; }
    before.open.forEach(function (p) { p[0].open = p[1]; });
    if (before.theme === null) { root.removeAttribute('data-theme'); } else { root.setAttribute('data-theme', before.theme); }
    root.classList.remove('printing');
    before = null;
    drawAll();
  });

  label();
  drawAll();
  root.setAttribute('data-drawn', 'yes');
})();
