package build

// doubles is a set of games by a 64-bit hash of what makes them the same: 8 bytes a
// place, at most three quarters of the places taken. Two different games among five
// million have the same hash once in more than a million such collections.
type doubles struct {
	table []uint64 // 0 is free; its length is a power of two
	n     int
}

func newDoubles(room int) *doubles { return &doubles{table: make([]uint64, room)} }

// add puts a hash in and reports whether it was new.
func (d *doubles) add(hash uint64) bool {
	if hash == 0 {
		hash = 1 // 0 marks a free place
	}
	i := hash & uint64(len(d.table)-1)
	for d.table[i] != 0 {
		if d.table[i] == hash {
			return false
		}
		i = (i + 1) & uint64(len(d.table)-1)
	}
	d.table[i] = hash
	if d.n++; d.n > len(d.table)/4*3 {
		d.grow()
	}
	return true
}

func (d *doubles) grow() {
	bigger := &doubles{table: make([]uint64, 2*len(d.table))}
	for _, hash := range d.table {
		if hash != 0 {
			bigger.add(hash)
		}
	}
	*d = *bigger
}
