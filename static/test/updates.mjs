// Says invented games to a page, frame by frame, as fast as it takes them: put into the
// page by the tests of its memory and its cost. window.update(n) says the next n frames, to the
// boards of window.templates in turn; a game is 120 moves of knights, and in between there is
// everything that a show has: corrections, moves taken back, alerts, a new move, sentences with
// marks, results, then another game with other names; for the working surfaces also prompts
// that come and go, and lines of the log.
(() => {
  const PLIES = 120;
  const GAME = PLIES + 20; // frames of a game, about
  const FEN = ['rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR', 'rnbqkbnr/pppppppp/8/8/8/5N2/PPPPPPPP/RNBQKB1R', 'r1bqkbnr/pppppppp/2n5/8/8/5N2/PPPPPPPP/RNBQKB1R', 'r1bqkbnr/pppppppp/2n5/8/8/8/PPPPPPPP/RNBQKBNR'];
  const MOVES = [['Nf3', 'g1', 'f3'], ['Nc6', 'b8', 'c6'], ['Ng1', 'f3', 'g1'], ['Nb8', 'c6', 'b8']];
  const LOOKS = ['preparation', 'preparation', 'thinking', 'unsure', 'trouble', 'none'];
  const NAMES = ['Quintanilha', 'Tveiterås', 'Abenov', 'Brandvold', 'Oyelaran-Castellanos', 'Szczygieł'];
  const PROMPTS = 12; // listed at once
  const games = window.templates.map((template, i) => ({ template, number: i, plies: [], frame: 0, since: {}, base: 0 }));
  let game = games[0];
  let rev = 1_000_000;
  let captions = 0;

  const now = () => Date.now();
  const ply = (i, san) => {
    const [move, from, to] = MOVES[i % 4];
    const look = LOOKS[(i + game.number) % LOOKS.length];
    const mark = i % 13 === 5 ? 'mended' : i % 19 === 7 ? 'doubtful' : '';
    return { number: i + 1, san: san ?? move, from, to, spentMs: ((i * 7919 + game.number * 104729) % 180) * 1000, leftMs: 3_600_000 - i * 20_000, quality: look === 'none' ? 'none' : 'read', look, byHand: false, mark, remark: mark && 'invented' };
  };
  const clock = (side, n) => {
    const running = (n % 2 === 0) === (side === 'white');
    return { leftMs: 1_800_000 - n * 11_000, at: now(), spentMs: 0, state: running ? 'running' : 'stopped', quality: 'read', stepMs: 1000, unsureMs: 200, mark: '', remark: '' };
  };
  const player = (side, n, template) => {
    const name = NAMES[(game.number + (side === 'white' ? 0 : 3)) % NAMES.length];
    const verdict = n < 30 ? 'preparation' : 'thinking';
    const tell = { ...template.tell, verdict, thinking: (n * 37 % 100) / 100, evidence: `${n} moves, 0:${String(n % 60).padStart(2, '0')} gained`, trouble: n > 110 ? 2 : 0 };
    return { ...template, name, short: name, title: 'IM', rating: 2400 + game.number % 90, federation: 'VLM', gains: n % 24 > 12 ? 'PN' : '', clock: clock(side, n), tell };
  };
  /** When an alert of this game was first said: it stays the same one. */
  const since = (ply) => (game.since[ply] ??= now());
  const alerts = (n) => [20, 40, 60, 80].filter((at) => n >= at && n < at + 12).map((at) => ({
    id: `board1-game${game.number}-longThink-white-${at}`, kind: at === 60 ? 'leftPreparation' : at === 80 ? 'novelty' : 'longThink', side: 'white', level: 1, ply: at, at: since(at), reason: 'invented', evidence: `${at} invented`,
  }));

  /** The next frame, after the last board that the relay sent. */
  const next = () => {
    const { template } = game;
    const f = game.frame++;
    let keep = game.plies.length;
    let correction = template.correction;
    if (f % 17 === 16) {
      correction = { ply: keep, was: game.plies[keep - 1].san, is: f % 2 ? 'Na3' : '', at: now() };
      game.plies = game.plies.slice(0, --keep);
      if (f % 2) game.plies = [...game.plies, ply(keep, 'Na3')];
    } else game.plies = [...game.plies, ply(keep)];
    const n = game.plies.length;
    const over = game.frame >= GAME || n >= PLIES;
    const frame = {
      ...template, base: game.base, rev: ++rev, at: now(), keep, plies: game.base ? game.plies.slice(keep) : game.plies, fen: `${FEN[n % 4]} ${n % 2 ? 'b' : 'w'} KQkq - ${n} ${1 + (n >> 1)}`,
      white: player('white', n, template.white), black: player('black', n, template.black), running: over ? '' : n % 2 ? 'black' : 'white',
      result: over ? '1/2-1/2' : '*', correction: game.frame > 1 ? correction : null, alerts: over ? [] : alerts(n), event: `Velmarin Open ${game.number % 7}`, round: String(1 + game.number % 9),
      opening: n < 8 ? { code: '', name: '' } : { code: 'A04', name: n < 40 ? 'Invented Opening: Long Variation, Line' : 'Invented Opening' },
      novelty: n < 80 ? null : { ply: 78, all: 0, before: { games: 12, white: 4, draws: 4, black: 4, all: 12, moves: [], last: null } },
    };
    game.base = over ? 0 : rev;
    if (over) Object.assign(game, { number: game.number + 1, plies: [], frame: 0, since: {} });
    return frame;
  };
  const caption = () => {
    captions++;
    const marks = [{ kind: 'look', from: '', to: 'e1' }, { kind: 'danger', from: 'd8', to: 'e8' }, { kind: 'guard', from: 'd1', to: 'c1' }];
    const said = { key: `k${captions}`, kind: 'facts', board: 1, side: 'white', text: `Sentence ${captions}, invented.`, source: 'board 1', marks: marks.slice(captions % 3), by: 'Nadja', at: now(), until: now() + 20_000 };
    return { type: 'caption', rev: captions, caption: captions % 2 ? said : null };
  };

  /** Prompts come, are taken, said and withdrawn. @param {number} n */
  const prompts = (n) => {
    const items = Array.from({ length: PROMPTS }, (_, i) => n - i).filter((k) => k > 0).map((k) => ({
      key: `prompt-${k}`, kind: k % 2 ? 'tell' : 'facts', board: game.template.board, side: 'white', ply: k % PLIES, at: now(), priority: k % 5 ? 'soon' : 'now', text: `Invented sentence ${k}.`, evidence: `${k} invented`,
      ends: 'when the move comes', withdrawn: n - k > 6 ? now() : 0, marks: [], state: n - k < 3 ? 'open' : k % 3 ? 'said' : 'dropped', by: n - k < 3 ? '' : 'Nadja', since: now(), pinned: k % 7 ? '' : 'Nadja',
    }));
    return { type: 'prompts', rev: n, items };
  };
  const line = (n) => ({ type: 'log', items: [{ seq: 1_000_000 + n, at: now(), board: game.template.board, kind: 'correction', ply: n % PLIES, was: `N${n}`, is: 'Na3', text: `invented ${n}` }] });

  let said = 0;
  window.update = (count) => {
    for (let i = 0; i < count; i++) {
      game = games[said++ % games.length];
      if (game.frame % 10 === 9) window.say(caption());
      if (window.surface) window.say(line(said));
      if (window.surface && said % 20 === 0) window.say(prompts(said / 20));
      window.say(next());
    }
    return rev;
  };
  /** Ends the games under way, so that the page is always looked at in the same state. */
  window.updateToEnd = () => {
    for (game of games) while (game.frame > 0) window.say(next());
    if (window.surface) window.say({ type: 'prompts', rev: said, items: [] });
    window.say({ type: 'caption', rev: ++captions, caption: null });
    return rev;
  };
  /** Says sentences, one after the other: a page takes each before the next. */
  window.speak = async (count) => {
    for (let i = 0; i < count; i++) {
      window.say(caption());
      await new Promise((done) => setTimeout(done));
    }
    window.say({ type: 'caption', rev: ++captions, caption: null });
    return rev;
  };
})();
