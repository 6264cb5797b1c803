package facts

// Change is what a move did to the facts.
type Change struct {
	Came Facts // true now and not before
	Went Facts // true before and not now
}

// Changes tells what came and what went between two positions. A fact that holds with
// another amount or on other squares went and came; so does a fact about a man that has
// moved. Facts about the side to move (forks on offer, mates) go with every move.
func Changes(before, after Facts) Change {
	return Change{Came: without(after, before), Went: without(before, after)}
}

// without returns the facts of a that b lacks. No list has a fact twice.
func without(a, b Facts) Facts {
	var left Facts
	for i := range a {
		if !b.contains(&a[i]) {
			left = append(left, a[i])
		}
	}
	return left
}

func (f Facts) contains(fact *Fact) bool {
	for i := range f {
		if f[i].Kind == fact.Kind && f[i] == *fact {
			return true
		}
	}
	return false
}
