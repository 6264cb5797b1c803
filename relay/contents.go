package relay

import "fmt"

// Contents is what one feed says as a whole, put together from what changed.
type Contents struct{ pieces []piece }

// Take takes the parts of the next packet. The error says that they do not fit.
func (c *Contents) Take(parts []Part) error {
	next, _, err := build(c.pieces, parts)
	if err != nil {
		return err
	}
	c.pieces = next
	return nil
}

// Parts returns what makes the whole from nothing.
func (c *Contents) Parts() []Part {
	parts := make([]Part, len(c.pieces))
	for i := range c.pieces {
		parts[i].Text = c.pieces[i].text
	}
	return parts
}

// build puts parts together; from tells of each game where it stood before, -1 for a
// new text.
func build(before []piece, parts []Part) (next []piece, from []int, err error) {
	for i, part := range parts {
		if part.Count > 0 {
			if part.From < 0 || part.From+part.Count > len(before) {
				return nil, nil, fmt.Errorf("part %d: %w", i+1, errParts)
			}
			next = append(next, before[part.From:part.From+part.Count]...)
			for n := range part.Count {
				from = append(from, part.From+n)
			}
			continue
		}
		text, err := part.text(before)
		if err != nil {
			return nil, nil, fmt.Errorf("part %d: %w", i+1, err)
		}
		next = append(next, piece{text: text})
		from = append(from, -1)
	}
	return next, from, nil
}
