// Reads PGN with kokopu and prints what it understood: node read.mjs <games.pgn
import { readFileSync } from 'node:fs';
import { pgnRead } from 'kokopu';

const fold = (text) => (text ?? '').replace(/\s+/g, ' ').trim();

function line(variation) {
  const moves = [];
  for (let node = variation.first(); node; node = node.next()) {
    const from = node.positionBefore().notation(node.notation()) && node.notation();
    moves.push({
      san: from, nags: [...node.nags()].sort((a, b) => a - b), comment: fold(node.comment()),
      clk: node.tag('clk') ?? '', emt: node.tag('emt') ?? '', fen: node.fen(), lines: node.variations().map((v) => ({ comment: fold(v.comment()), moves: line(v) })),
    });
  }
  return moves;
}

const database = pgnRead(readFileSync(0, 'utf8'));
const games = [];
for (let i = 0; i < database.gameCount(); i++) {
  const game = database.game(i);
  games.push({ white: game.playerName('w') ?? '', black: game.playerName('b') ?? '', event: game.event() ?? '', result: game.result(), moves: line(game.mainVariation()) });
}
console.log(JSON.stringify(games));
