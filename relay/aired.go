package relay

import "slices"

// sameOnScenes reports whether no scene would be sent anything after s to have next.
func (s *Show) sameOnScenes(next *Show) bool {
	return s.sameTop(next) && slices.EqualFunc(s.Boards, next.Boards, func(x, y *Board) bool { return x.Rev == y.Rev })
}

// sameTop is sameOnScenes but for the boards.
func (s *Show) sameTop(next *Show) bool {
	return s.HeadRev == next.HeadRev && s.OnAir.Rev == next.OnAir.Rev && s.Desk.AirRev == next.Desk.AirRev
}

// airedTop returns what scenes are sent of a show besides its boards, to be kept for long: the
// rest would hold on to whole games as each feed told them. Was is the show that was kept
// last and keeps what was kept of it, nil for none. What is hidden by a challenge gets its
// show when it is looked at.
func (s *Show) airedTop(was, keeps *Show) *Show {
	if was != nil && was.hidden == nil && s.hidden == nil && was.sameTop(s) {
		return keeps
	}
	next := *s
	next.Boards, next.Feeds, next.Log, next.Entries, next.Said, next.Table, next.Totals = nil, nil, Notes{}, nil, Prompts{}, Table{}, Totals{}
	next.asides, next.ClockErrors, next.dues = nil, nil, nil
	if h := s.hidden; h != nil {
		kept := *h
		kept.show = nil
		if keeps != nil && keeps.hidden != nil && keeps.hidden.challenge == h.challenge {
			kept.board = keeps.hidden.board
		} else {
			kept.board = h.board.aired(&Board{}, &Board{})
		}
		next.hidden = &kept
	}
	return &next
}

// airedBoards returns what scenes are sent of the boards.
func (s *Show) airedBoards(was *Show, keeps boardList) boardList {
	boards := make([]*keptBoard, len(s.Boards))
	for i, b := range s.Boards {
		switch {
		case was == nil || i >= len(was.Boards):
			boards[i] = &keptBoard{whole: b.aired(&Board{}, &Board{})}
		case was.Boards[i].Rev == b.Rev:
			boards[i] = keeps.at(i)
		default:
			boards[i] = b.keep(was.Boards[i], keeps.at(i))
		}
	}
	return keeps.with(boards)
}

func (b *Board) aired(was, keeps *Board) *Board {
	next := *b
	next.Offers, next.Hand, next.Question, next.accepted, next.taken = nil, Hand{}, nil, nil, nil
	next.lost, next.filter0, next.Errors, next.startOpinion, next.startSecond = nil, nil, Errors{}, nil, nil
	next.filled, next.staked = nil, nil
	if b.samePlies(was) {
		next.Plies = keeps.Plies
	} else {
		next.Plies = airedPlies(b.Plies, keeps.Plies)
	}
	return &next
}

// samePlies reports that nothing at all has been told of the plies since was.
func (b *Board) samePlies(was *Board) bool {
	n := len(b.Plies)
	return n == len(was.Plies) && n > 0 && &b.Plies[0] == &was.Plies[0]
}

// airedPlies returns plies as scenes are sent them. What they begin with like those that
// are kept shares their room; nothing that is kept is changed, because only the newest
// is ever followed.
func airedPlies(plies, keeps []Ply) []Ply {
	same, most := 0, min(len(plies), len(keeps))
	for same < most && plies[same].aired() == keeps[same] {
		same++
	}
	if same < len(keeps) || len(plies) > cap(keeps) {
		keeps = append(make([]Ply, 0, roomFor(plies, keeps)), keeps[:same]...)
	}
	for i := same; i < len(plies); i++ {
		keeps = append(keeps, plies[i].aired())
	}
	return keeps
}

// usualPlies is how many plies there is room for as soon as a game goes on: most are no longer.
// Boards of before hold on to the room of before, so there are to be few.
const usualPlies = 96

func roomFor(plies, keeps []Ply) int {
	switch n := len(plies); {
	case len(keeps) == 0:
		return n
	case n <= usualPlies:
		return usualPlies
	default:
		return n + usualPlies/2
	}
}

func (p Ply) aired() Ply {
	p.filter, p.remarks, p.told, p.Opinion, p.Second = nil, nil, heardClock{}, nil, nil
	p.position = nil // it remembers its legal moves, and is four times as large as all else of a ply
	return p
}
