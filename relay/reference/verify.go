package reference

// Verify reads the whole file again.
func (x *Index) Verify() error {
	for i, s := range x.head.sections {
		if err := readSection(x.from, sectionNames[i], s, nil); err != nil {
			return err
		}
	}
	return nil
}
