// Package reference keeps an index of positions: which games reached a position,
// what they went on with and how they ended. A Writer writes it from sorted
// occurrences in one pass; an Index answers for a position and a filter in about a
// microsecond. Positions and moves are numbers here, what they mean is the
// caller's affair.
//
// # What is guaranteed
//
// Open checks the head, that the file has exactly the size that its head says,
// and the checksum of every section but the data; the tables that counting needs
// are then in memory, and no later damage reaches them. Lookup checks each block, body
// and detail that it reads before it uses it, and the checksum begins from the
// position: so damage, pages that cannot be read and blocks in another's place are
// ErrDamaged and not a wrong answer, as far as 32 bits tell. Names of games are
// checked at Open and read from the file later: damage since then can show as a
// wrong name. Verify reads everything, the parts of the data that no lookup has met
// included, and compares summaries with what they sum up.
//
// A file is written under another name, synced, given a head, synced again and
// renamed, and the folder is synced: under its name it is whole, or not there. To
// replace an index that is in use, rename; whoever has it open keeps the old one.
//
// # Filters
//
// Every figure of an Answer is exact under every Filter, examples included. A
// minimum rating is a whole number of hundreds, because that is what popular
// moves are counted by.
//
// # Memory
//
// A Writer keeps 8 bytes of each game, the different names, 16 bytes for each
// block, and what it is writing. An Index keeps 8 bytes of each game, 16 of each
// block and at most 8 more for finding it, and the habits. Blocks are mapped, not kept.
//
// # Format, version 1
//
// All numbers are little-endian on every machine; varint is that of
// encoding/binary, unsigned. Checksums are CRC-32C. Sections follow the head and
// each other without gaps, to the end of the file.
//
//	head, 256 bytes
//	    0  magic: 89 "ctref" 0D 0A
//	    8  version, 4 bytes
//	   12  depth in plies, 4 bytes
//	   16  hashing, 8 bytes: see Head.Hashing
//	   24  games, 8 bytes
//	   32  positions, 8 bytes
//	   40  occurrences, 8 bytes
//	   48  filter of the build: minimum rating, first year, last year (2 bytes each), 1 if only over the board, class (1 byte each)
//	   64  six sections, 24 bytes each: where, size (8 bytes each), checksum, zero (4 bytes each)
//	  208  zeros
//	  252  checksum of the bytes before it, 4 bytes
//	names: for each game the numbers of the texts of White, Black and event, 4 bytes each
//	attributes: for each game 8 bytes
//	    bits 0-11 White's rating, 12-23 Black's, 24-35 year, 36-37 result, 38-40 class,
//	    41-42 venue, 43-54 the lower of the ratings; 0 is unknown, as in Game
//	texts: their number (4 bytes); where each ends, counted from the first (4 bytes each); the texts, UTF-8
//	data: blocks, large bodies and details, in the order in which they were finished
//	fence: for each block its first position (8 bytes), where it is (6) and its size (2)
//	habits: one after the other; where each begins in the section (4 bytes each); their number (4 bytes)
//
// A block holds up to 64 positions in ascending order:
//
//	checksum (4 bytes, begins from the first position), number of positions n (1), width w (1)
//	n distances from the first position, w bytes each
//	n tags, a byte each: 0-3: one game; 4-254: moves, in tag-3 bytes; 255: the moves are a large body
//	n bodies
//	    one game:   the move (2 bytes), the game (tag+1 bytes)
//	    large body: where it is (8 bytes), its size with the checksum (4)
//
// A checksum that stands before a large body or a detail (4 bytes) begins from the
// position: from its upper half xor its lower half, instead of from 0. A body of
// moves begins with where its first detail is (varint, 0: it has none; the
// others follow), and then has for each move in ascending order
//
//	the move (2 bytes; the top bit is set when Black moves), the number of games (varint)
//	below 17 games:    a list
//	below 4096 games:  a summary, the size of a detail (varint); the detail is a list
//	else:              a summary, the size of all details together, the size of the spans (varints), the spans
//	list:              the first game, then the distance of each from the one before (varints)
//	span:              first year, years after it, size of a detail (varints)
//
// Spans are the years of all games and then, from the whole to the parts, each
// half of each; unknown years stand alone. So any years are few spans. A
// span's detail has for each class and venue that there is (attributes, bits
// 38-42) a byte, the size of what follows (4 bytes), and for each hundred of the lower
// rating that there is, ascending: the hundred, the size of a summary (1 byte each)
// and the summary of all games of this hundred and all higher ones. So a filter needs one.
//
// A summary is varints: games without a result, White's wins, draws, Black's wins;
// games in which the rating of who made the move is unknown, the sum of the
// others, the highest; year and number of the latest game; lower rating of the highest
// rated game. With two games or more there follow its year (as years before the
// latest) and number, and the same of the second highest rated: lower rating, year, number.
//
// Habits are the length of the name (1 byte), the name, the class (1 byte), and as
// varints: games, the three quartiles of Prepared, the number of moves of Spent and
// for each its number, milliseconds and games, and the same of Left. They are
// sorted by name in lower case and class.
//
// # Why not an engine
//
// An embedded engine was to be taken unless a file is at least twice as good end
// to end. Module rivals measured both on the same grouped payload, 500,000
// made-up games, 20.5 million occurrences, 14.5 million positions; its document says
// how. Two cores that other jobs used at the same time (load 8 to 12), three
// rounds in turns, medians: the ratios count, and of p99 and cold times the order of
// magnitude. Peak memory of looks has the mapped pages in it.
//
//	store    build s    x    MB  bytes/game  hit p50/p99 us    x  miss p50/p99 us  cold hit p50/p99 us  peak MiB build, look
//	index       2.80  1.0   228         456       0.85/1.63  1.0        0.65/1.08              52/2282               45, 216
//	pebble      8.19  2.9   303         605       2.79/5.78  3.3        1.00/4.29             449/8468              234, 269
//	bbolt      22.72  8.1   468         937       1.72/5.37  2.0        1.70/4.88              104/998              105, 255
//	SQLite     59.17 21.1   319         638      7.97/32.08  9.4       7.71/32.31           7093/39832              158, 328
//
// An engine's look fetches bytes, the index's counts an answer; and the index holds
// games, names and what filters need besides. Even so the file builds 2.9 times
// as fast as the nearest engine and answers twice as fast as the nearest (another),
// and is 1.3 to 2 times smaller. It is less than twice as good in size against two of
// them, in misses against pebble, and in cold p50 against bbolt, by a little; and bbolt's cold
// p99 was lower. SQLite's cold figure is that of its memory map and of a machine that
// reads 8 MB ahead; without the map, in one run, it was 129/307 us, and the warm hit 10 us.
//
// Against a flat file of 24 bytes a position, mapped, with a fence in memory, five turns
// on a quieter machine: a hit takes 1.3 to 1.5 times as long (0.75-0.83 us), a miss 0.9
// to 1.0, a hit with a filter of rating and years 2.0 to 2.1. Read instead of mapped, a
// hit takes 2.2 to 2.3 times as long. Mapped without the advice not to read ahead, a cold hit
// took 5 ms instead of 0.05.
//
// 5 million games of 30 plies, 155 million occurrences: 1559 MB, 312 bytes a game,
// written with 225 MiB at the most; a warm hit 1.07 us. The position that all of them
// share: 2 us without a filter, 15 to 110 us with one. The slowest of 2000 popular positions
// with a wide filter: 0.4 ms.
package reference
