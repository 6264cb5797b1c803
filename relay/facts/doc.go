// Package facts says what stands on the board, exactly: which pieces, which squares,
// under which rule. It is pure and knows nothing of sentences.
//
// Start with Of, which finds every fact of a position, and Game, which follows the
// moves of a game and adds what only the past tells: repetition, and when and by what
// castling was lost. Changes tells two lists apart. Each Kind is defined where it is
// declared, in the files that begin with kind; so that two people with a board agree,
// a word that the trade uses in two ways has one meaning there. Where no source is named
// the definition is common practice, no source.
//
// # Words used in the definitions
//
// A piece is a knight, bishop, rook or queen; "man" includes pawns and the king. A man
// attacks where it could capture, pinned or not, and defends its own men in the same way.
// Ranks are counted from the side's own: White's second rank is the second, Black's is
// the seventh.
//
// Values are those of package bitboard, in centipawns: 100, 300, 300, 500, 900.
//
// An exchange on a square is the best that both sides can do by capturing on that square
// alone, in any order, with legal captures, each free to stop. It differs from the quick
// estimate of bitboard.Position.Exchange in that pinned men do not take part. The side
// that is not on the move is looked at as if it were; when the other king stands in
// check then, that check is left out of account.
//
// A move's outcome is what it captures less what the exchange on its square of
// arrival then gives the other side. A move is safe if its outcome is not negative.
package facts
