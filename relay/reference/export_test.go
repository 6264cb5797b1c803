package reference

// Unmapped is the same index, whose blocks are read and not mapped.
func (x *Index) Unmapped() *Index {
	return &Index{whole: x.whole, from: x.whole, size: x.size, head: x.head, attributes: x.attributes, fence: x.fence, habits: x.habits}
}
