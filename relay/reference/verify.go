package reference

import (
	"slices"
)

// Verify reads the whole file: the checksum of each section, then each block,
// whether its positions ascend, whether it can be read to the end, whether
// summaries agree with the games that they sum up. An error wraps ErrDamaged or is
// the system's.
func (x *Index) Verify() error {
	for i, s := range x.head.sections {
		if err := readSection(x.whole, sectionNames[i], s, nil); err != nil {
			return err
		}
	}
	v := verifier{x: x}
	for block := range x.fence.blocks() {
		if err := v.block(block); err != nil {
			return err
		}
	}
	if v.positions != x.head.positions || v.occurrences != x.head.occurrences {
		return damaged("%d positions reached %d times, and the head says %d and %d", v.positions, v.occurrences, x.head.positions, x.head.occurrences)
	}
	for i := range x.habits.count() {
		if _, ok := x.habits.at(i); !ok {
			return damaged("habit %d cannot be read", i)
		}
	}
	return nil
}

type verifier struct {
	x                      *Index
	positions, occurrences uint64
	last                   uint64 // position
	brief, full            Answer
}

func (v *verifier) block(block int) error {
	first := v.x.fence.first(block)
	l, err := v.x.block(block, &v.brief)
	if err != nil {
		return err
	}
	if l.delta(0) != 0 {
		return damaged("block %d begins elsewhere", block)
	}
	for i := range l.n {
		position := first + l.delta(i)
		if v.positions > 0 && position <= v.last {
			return damaged("position %x is out of order", position)
		}
		v.positions, v.last = v.positions+1, position
		if err := v.position(&l, i, position); err != nil {
			return err
		}
	}
	return nil
}

// position answers from summaries and from details, and compares.
func (v *verifier) position(l *layout, i int, position uint64) error {
	all := Filter{}.sieve()
	v.brief.reset()
	if err := v.x.answer(l, i, position, all, &v.brief); err != nil {
		return err
	}
	all.all = false
	v.full.reset()
	if err := v.x.answer(l, i, position, all, &v.full); err != nil {
		return err
	}
	v.occurrences += uint64(v.brief.Unfiltered)
	if !v.brief.equal(&v.full) {
		return damaged("position %x disagrees with itself", position)
	}
	return nil
}

// equal compares what answers say.
func (out *Answer) equal(o *Answer) bool {
	return out.Games == o.Games && out.White == o.White && out.Draws == o.Draws && out.Black == o.Black &&
		out.Unfiltered == o.Unfiltered && out.Last == o.Last && out.LastMove == o.LastMove &&
		slices.EqualFunc(out.Moves, o.Moves, MoveAnswer.equal)
}

func (m MoveAnswer) equal(o MoveAnswer) bool {
	return m.Move == o.Move && m.Games == o.Games && m.White == o.White && m.Draws == o.Draws && m.Black == o.Black &&
		m.BestRating == o.BestRating && m.MeanRating == o.MeanRating && m.LastYear == o.LastYear &&
		slices.Equal(m.Examples, o.Examples)
}
