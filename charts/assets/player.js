/* Plays the sounds of the page, all by one gain. Nothing plays before a button is pressed. */
(function () {
  'use strict';
  var box = document.getElementById('player');
  if (!box) { return; }
  var said = document.getElementById('player-said');
  var slider = document.getElementById('player-volume');
  var buttons = Array.prototype.slice.call(box.querySelectorAll('button[data-clip]'));
  var Context = window.AudioContext || window.webkitAudioContext;
  if (!Context) {
    said.textContent = 'This browser plays no sound that a page makes: use the files that were written beside it.';
    return;
  }
  var rate = Number(box.dataset.rate);
  var START = 0.3, SWITCH = 0.06; // s, of fading in and of going from one sound to the next
  var context, master, playing = null, begun = 0, ready = {};

  // The slider never goes over full scale; it is squared, so that its lower half is of use.
  function volume() { var v = Number(slider.value) / 100; return Math.min(1, v * v); }

  function wake() {
    if (!context) {
      context = new Context();
      master = context.createGain();
      master.gain.value = volume();
      master.connect(context.destination);
      begun = context.currentTime;
    }
    return context.resume();
  }

  function samplesOf(name) {
    var text = atob(document.getElementById('clip-' + name).textContent.trim());
    var out = new Float32Array(text.length / 2);
    for (var i = 0; i < out.length; i++) {
      var v = text.charCodeAt(2 * i) | text.charCodeAt(2 * i + 1) << 8;
      out[i] = (v < 32768 ? v : v - 65536) / 32768;
    }
    return out;
  }

  function bufferOf(name) {
    if (!ready[name]) {
      var samples = samplesOf(name);
      ready[name] = context.createBuffer(1, samples.length, rate);
      ready[name].copyToChannel(samples, 0);
    }
    return ready[name];
  }

  // firing is a pure tone at the level that it has in the sounds.
  function firing() {
    var tone = context.createOscillator();
    tone.frequency.value = Number(box.dataset.firing);
    return tone;
  }

  function looped(name) {
    var source = context.createBufferSource();
    source.buffer = bufferOf(name);
    source.loop = true;
    return source;
  }

  function fadeOut(what) {
    var now = context.currentTime;
    what.gain.gain.cancelScheduledValues(now);
    what.gain.gain.setValueAtTime(what.gain.gain.value, now);
    what.gain.gain.linearRampToValueAtTime(0, now + SWITCH);
    what.source.stop(now + SWITCH + 0.01);
  }

  function mark(button) {
    buttons.forEach(function (b) { b.setAttribute('aria-pressed', String(b === button)); });
    said.textContent = button ? 'Playing: ' + button.textContent : 'Stopped.';
  }

  function stop() {
    if (playing) { fadeOut(playing); }
    playing = null;
    mark(null);
  }

  function play(button) {
    var name = button.dataset.clip;
    var fade = playing ? SWITCH : START;
    var tone = name === 'firing';
    var source = tone ? firing() : looped(name);
    var gain = context.createGain();
    var now = context.currentTime;
    if (playing) { fadeOut(playing); } else { begun = now; }
    gain.gain.setValueAtTime(0, now);
    gain.gain.linearRampToValueAtTime(tone ? Math.min(1, Number(box.dataset.firingAt)) : 1, now + fade);
    source.connect(gain);
    gain.connect(master);
    if (tone) { source.start(now); } else { source.start(now, (now - begun) % source.buffer.duration); }
    playing = { source: source, gain: gain, button: button };
    mark(button);
  }

  buttons.forEach(function (button) {
    button.disabled = false;
    button.addEventListener('click', function () {
      wake().then(function () {
        if (playing && playing.button === button) { stop(); } else { play(button); }
      });
    });
  });
  document.getElementById('player-stop').addEventListener('click', function () { if (context) { stop(); } });
  slider.addEventListener('input', function () {
    if (master) { master.gain.setTargetAtTime(volume(), context.currentTime, 0.03); }
  });
  // Esc stops; a figure plays the layout of that number in this list.
  box.addEventListener('keydown', function (event) {
    var button = box.querySelector('button[data-key="' + event.key.replace(/[^0-9]/g, '') + '"]');
    if (event.key === 'Escape' && context) { stop(); } else if (button) { button.focus(); button.click(); }
  });
}());
