/* Plays the sounds of the page, all by one gain. Nothing plays before a button is pressed. The player may come and go. */
(function () {
  'use strict';
  var Context = window.AudioContext || window.webkitAudioContext;
  var START = 0.3, SWITCH = 0.06; // s, of fading in and of going from one sound to the next
  var box = null, said, slider, buttons, context, master, playing = null, begun = 0, ready, idle;

  // The slider never goes over full scale; it is squared, so that its lower half is of use.
  function volume() { var v = Number(slider.value) / 100; return Math.min(1, v * v); }

  function follow() { if (master) { master.gain.setTargetAtTime(volume(), context.currentTime, 0.03); } }

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
      ready[name] = context.createBuffer(1, samples.length, Number(box.dataset.rate));
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

  // working tells that the sounds may be of what was there before a change.
  function working() { return !!box.closest('[aria-busy="true"]'); }

  function mark() {
    var button = playing && playing.button;
    buttons.forEach(function (b) { b.setAttribute('aria-pressed', String(b === button)); });
    var text = !Context ? 'This browser plays no sound that a page makes: use the files of compare --sound.'
      : working() ? 'working…' : button ? 'Playing: ' + button.textContent : idle;
    if (said.textContent !== text) { said.textContent = text; }
  }

  function stop() {
    if (playing) { fadeOut(playing); }
    playing = null;
    idle = 'Stopped.';
    mark();
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
    mark();
  }

  function press(button) {
    wake().then(function () {
      if (!button.isConnected || working()) { return; }
      if (playing && playing.button === button) { stop(); } else { play(button); }
    });
  }

  // wire makes the buttons of a player work; it starts quiet.
  function wire() {
    said = document.getElementById('player-said');
    slider = document.getElementById('player-volume');
    buttons = Array.prototype.slice.call(box.querySelectorAll('button[data-clip]'));
    ready = {};
    idle = said.textContent;
    follow();
    buttons.forEach(function (button) {
      button.disabled = !Context;
      button.addEventListener('click', function () { press(button); });
    });
    document.getElementById('player-stop').addEventListener('click', function () { if (context) { stop(); } });
    slider.addEventListener('input', follow);
    // Esc stops; a figure plays the layout of that number in this list.
    box.addEventListener('keydown', function (event) {
      var button = /^[1-9]$/.test(event.key) && !event.ctrlKey && !event.altKey && !event.metaKey && box.querySelector('button[data-key="' + event.key + '"]');
      if (event.key === 'Escape' && context) { stop(); } else if (button) { button.focus(); button.click(); }
    });
  }

  // meet turns to the player that is on the page now; what another one played ends with it.
  function meet() {
    var now = document.getElementById('player');
    if (now !== box) {
      if (playing) { fadeOut(playing); }
      playing = null;
      box = now;
      if (box) { wire(); }
    }
    if (box) { mark(); }
  }

  new MutationObserver(meet).observe(document.body, { childList: true, subtree: true, attributes: true, attributeFilter: ['aria-busy'] });
  meet();
}());
