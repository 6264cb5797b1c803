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

// keptTop is what scenes are sent of a show besides its boards, as it is kept for those that are
// held back.
type keptTop struct {
	show   *Show // without boards
	boards int   // how many there are
}

// airedTop returns what scenes are sent of a show besides its boards, to be kept for long: the
// rest would hold on to whole games as each feed told them. Was is the show that was kept
// last and keeps what was kept of it, nil for none. What is hidden by a challenge gets its
// show when it is looked at.
func (s *Show) airedTop(was *Show, keeps *keptTop) *keptTop {
	same := was != nil && len(was.Boards) == len(s.Boards) && was.sameTop(s)
	if same && was.hidden == nil && s.hidden == nil {
		return keeps
	}
	next := *s
	next.Boards, next.Feeds, next.Log, next.Entries, next.Said, next.Table, next.Totals = nil, nil, Notes{}, nil, Prompts{}, Table{}, Totals{}
	next.asides, next.ClockErrors, next.dues = nil, nil, nil
	next.hidden = s.hidden.aired(keeps)
	if same && next.hidden != nil && keeps.show.hidden != nil && *next.hidden == *keeps.show.hidden {
		return keeps
	}
	return &keptTop{show: &next, boards: len(s.Boards)}
}

func (h *hidden) aired(keeps *keptTop) *hidden {
	if h == nil {
		return nil
	}
	next := *h
	next.show = nil
	if keeps != nil && keeps.show.hidden != nil && keeps.show.hidden.challenge == h.challenge {
		next.board = keeps.show.hidden.board
	} else {
		next.board = h.board.keep(&Board{}, keptBoard{}).board(keptBoard{}, nil)
	}
	return &next
}

// samePlies reports that nothing at all has been told of the plies since was.
func (b *Board) samePlies(was *Board) bool {
	n := len(b.Plies)
	return n == len(was.Plies) && n > 0 && &b.Plies[0] == &was.Plies[0]
}

// airedPlies returns plies as scenes are sent them. Those that are like the ones kept are the
// same, and the plies that they begin with share their room: nothing of it is changed, because
// only the newest is ever followed.
func airedPlies(plies []Ply, keeps []*Ply) []*Ply {
	same, most := 0, min(len(plies), len(keeps))
	for same < most && plies[same].aired() == *keeps[same] {
		same++
	}
	next := keeps[:same]
	if same < len(keeps) {
		next = slices.Clip(next)
	}
	for i := same; i < len(plies); i++ {
		ply := plies[i].aired()
		if i < len(keeps) && ply == *keeps[i] {
			next = append(next, keeps[i])
		} else {
			next = append(next, &ply)
		}
	}
	return next
}

func (p Ply) aired() Ply {
	p.filter, p.remarks, p.told, p.Opinion, p.Second = nil, nil, heardClock{}, nil, nil
	p.position = nil // it remembers its legal moves, and is four times as large as all else of a ply
	return p
}
