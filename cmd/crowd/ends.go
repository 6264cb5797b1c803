package main

// ends holds what the page has, once everything has had time to come, to the truth and to
// what any page had some time ago.
func (v *verifier) ends(tables int, marks *marks) {
	for _, number := range v.want.numbers(tables) {
		b := v.boards[number]
		if b == nil {
			v.breach(breachLost, "board %d never came", number)
			continue
		}
		round, plies, result := v.truth.stands(b.table)
		if b.round != round || len(b.sans) != plies || b.result != result {
			v.breach(breachLost, "table %d ends with round %d, %d plies, %s; it stands at round %d, %d plies, %s",
				b.table, b.round, len(b.sans), b.result, round, plies, result)
		}
		if mark := marks.boards[number]; v.want.hold == 0 && b.rev < mark {
			v.breach(breachLost, "board %d ends with revision %d; %d was there long ago", number, b.rev, mark)
		}
	}
	if v.want.log() && v.line < marks.line {
		v.breach(breachLost, "the log ends with line %d; %d was there long ago", v.line, marks.line)
	}
}

// marks is what some page had at a time.
type marks struct {
	boards map[int]uint64 // revisions
	line   uint64         // of the log
}

// add takes in what one page that is not held back has.
func (m *marks) add(v *verifier) {
	if v.want.hold > 0 {
		return
	}
	for number, b := range v.boards {
		m.boards[number] = max(m.boards[number], b.rev)
	}
	m.line = max(m.line, v.line)
}
