package relay

import "slices"

// aired returns what scenes are sent of a show, to be kept for long: the rest would hold
// on to whole games as each feed told them. Was is the show that was kept last and
// keeps what was kept of it, nil for none.
func (s *Show) aired(was, keeps *Show) *Show {
	next := *s
	next.Feeds, next.Log, next.Entries, next.Said, next.Table, next.Totals = nil, Notes{}, nil, Prompts{}, Table{}, Totals{}
	next.asides, next.ClockErrors, next.dues = nil, nil, nil
	next.Boards = make([]*Board, len(s.Boards))
	for i, b := range s.Boards {
		switch {
		case was == nil || i >= len(was.Boards):
			next.Boards[i] = b.aired(&Board{}, &Board{})
		case was.Boards[i].Rev == b.Rev:
			next.Boards[i] = keeps.Boards[i]
		default:
			next.Boards[i] = b.aired(was.Boards[i], keeps.Boards[i])
		}
	}
	if h := s.hidden; h != nil {
		kept := *h
		if keeps != nil && keeps.hidden != nil && keeps.hidden.challenge == h.challenge {
			kept.board = keeps.hidden.board
		} else {
			kept.board = h.board.aired(&Board{}, &Board{})
		}
		kept.show = next.without(&kept)
		next.hidden = &kept
	}
	return &next
}

func (b *Board) aired(was, keeps *Board) *Board {
	next := *b
	next.Offers, next.Hand, next.Question, next.accepted, next.taken = nil, Hand{}, nil, nil, nil
	next.lost, next.filter0, next.Errors, next.startOpinion, next.startSecond = nil, nil, Errors{}, nil, nil
	if n := len(b.Plies); n == len(was.Plies) && n > 0 && &b.Plies[0] == &was.Plies[0] {
		next.Plies = keeps.Plies
	} else {
		next.Plies = airedPlies(b.Plies, keeps.Plies)
	}
	return &next
}

// airedPlies returns plies as scenes are sent them. What they begin with like those that
// are kept shares their room; nothing that is kept is changed, because only the newest
// is ever followed.
func airedPlies(plies, keeps []Ply) []Ply {
	same, most := 0, min(len(plies), len(keeps))
	for same < most && plies[same].aired() == keeps[same] {
		same++
	}
	if same < len(keeps) {
		keeps = slices.Clone(keeps[:same])
	}
	for i := same; i < len(plies); i++ {
		keeps = append(keeps, plies[i].aired())
	}
	return keeps
}

func (p Ply) aired() Ply {
	p.filter, p.remarks, p.told, p.Opinion, p.Second = nil, nil, heardClock{}, nil, nil
	p.position = nil // it remembers its legal moves, and is four times as large as all else of a ply
	return p
}

// states counts the boards of a show that are others than in the one before, and the
// show itself.
func (s *Show) states(before *Show) int {
	n := 1
	for i, b := range s.Boards {
		if before == nil || i >= len(before.Boards) || before.Boards[i] != b {
			n++
		}
	}
	return n
}
