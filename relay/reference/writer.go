package reference

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"os"
)

// Limits of what an index holds.
const (
	gamesMost = math.MaxUint32 // games
	movesMost = 256            // different moves, ends of games included, of a position
)

// phase says what a Writer takes.
type phase uint8

const (
	takesGames phase = iota
	takesOccurrences
	takesHabits
	over
)

// Writer writes an index: all games first, then all occurrences in order, then
// habits in order, then Commit. It keeps 8 bytes of each game, the different
// names, 16 bytes for each blockMost positions and 4 for each habit; all else
// goes to the disk as it comes. A Writer is for one goroutine. After an error
// nothing but Abort helps, and Commit fails.
type Writer struct {
	path  string
	out   *sink
	phase phase
	head  head

	texts      textTable
	attributes []attributes
	positions  positionWriter
	habits     habitWriter
}

// Create begins an index that will stand at path once it is committed. Until
// then it is written beside it, under a name that ends in .partial; such a file
// is left only by a process that was killed, is refused by Open and may be
// deleted. An index that stands at path stays until Commit and may be in use.
func Create(path string, h Head) (*Writer, error) {
	if err := h.Filter.Check(); err != nil {
		return nil, err
	}
	if h.Depth < 0 || h.Depth > math.MaxInt32 {
		return nil, fmt.Errorf("%w: depth %d", ErrLimit, h.Depth)
	}
	file, err := createBeside(path)
	if err != nil {
		return nil, err
	}
	w := &Writer{path: path, out: newSink(file), head: head{Head: h}}
	w.texts.begin()
	w.positions.begin(w)
	w.out.write(make([]byte, headSize)) // nobody takes it for an index before Commit
	w.out.end()
	return w, w.out.err
}

// createBeside makes a new file next to path.
func createBeside(path string) (*os.File, error) {
	for n := 0; ; n++ {
		name := fmt.Sprintf("%s.%d-%d.partial", path, os.Getpid(), n)
		file, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
		if err == nil || !errors.Is(err, os.ErrExist) {
			return file, err
		}
	}
}

// AddGame adds a game and returns its number.
func (w *Writer) AddGame(g Game) (GameID, error) {
	if w.phase != takesGames {
		return 0, w.fail(fmt.Errorf("game: %w: games come before all else", ErrPhase))
	}
	if len(w.attributes) == gamesMost {
		return 0, w.fail(fmt.Errorf("game: %w: %d games", ErrLimit, gamesMost))
	}
	var row [nameRow]byte
	if err := w.texts.row(&row, g); err != nil {
		return 0, w.fail(err)
	}
	w.out.write(row[:])
	w.attributes = append(w.attributes, pack(g))
	return GameID(len(w.attributes) - 1), w.out.err
}

// Add adds an occurrence. An error wraps ErrUnsorted if it does not come after
// the one before, see Occurrence.Compare.
func (w *Writer) Add(o Occurrence) error {
	if w.phase != takesOccurrences {
		if err := w.enter(takesOccurrences); err != nil {
			return err
		}
	}
	if err := w.positions.add(o); err != nil {
		return w.fail(err)
	}
	return nil
}

// AddHabit adds a player's habits. An error wraps ErrUnsorted if they do not
// come after those before, see Habit.Compare.
func (w *Writer) AddHabit(h Habit) error {
	if err := w.enter(takesHabits); err != nil {
		return err
	}
	if err := w.habits.add(w.out, h); err != nil {
		return w.fail(err)
	}
	return nil
}

// fail keeps an error, so that no Commit succeeds after it.
func (w *Writer) fail(err error) error {
	w.out.err = cmp.Or(w.out.err, err)
	return err
}

// enter goes on to a phase, and writes what the ones before it leave.
func (w *Writer) enter(to phase) error {
	if w.phase > to {
		return w.fail(fmt.Errorf("%w: games come first, then occurrences, then habits", ErrPhase))
	}
	for ; w.phase < to; w.phase++ {
		switch w.phase {
		case takesGames:
			w.endGames()
		case takesOccurrences:
			w.positions.end()
		case takesHabits:
			w.habits.end(w.out)
			w.head.sections[habitTable] = w.out.end()
		}
	}
	return w.out.err
}

// endGames writes the tables of the games.
func (w *Writer) endGames() {
	w.head.games = uint64(len(w.attributes))
	w.head.sections[names] = w.out.end()
	writeColumn(w.out, w.attributes)
	w.head.sections[attributeColumn] = w.out.end()
	w.texts.write(w.out)
	w.texts = textTable{}
	w.head.sections[texts] = w.out.end()
}
