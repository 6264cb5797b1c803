package drawing

// Kind says what a shape is.
type Kind uint8

// The kinds.
const (
	Rect   Kind = iota // X, Y, W, H and the radius R of its corners
	Path               // D, as the d of SVG has it
	Circle             // X and Y of its middle, R
	Text               // Say, its baseline at Y, its X as Anchor says
)

// Anchor says which point of a text stands at its X.
type Anchor string

// The anchors; "" is the start.
const (
	Middle Anchor = "middle"
	End    Anchor = "end"
)

// Shape is one thing that is drawn; later ones lie over earlier ones.
type Shape struct {
	Kind       Kind
	X, Y, W, H float64
	R          float64
	D          string
	Fill       string // paint; "" none
	Stroke     string // colour; "" none
	Thick      float64
	Round      bool // ends and corners of the stroke
	Opacity    float64
	At         Move // moved and scaled as a whole; zero: not

	Say    string
	Size   float64 // of the type
	Weight int     // of the type, 400 to 700
	Anchor Anchor
}

// Move puts a shape elsewhere: scaled by By, then moved by X and Y. The zero Move moves
// nothing.
type Move struct{ X, Y, By float64 }

// scale returns by how much the shape is scaled.
func (m Move) scale() float64 {
	if m.By == 0 {
		return 1
	}
	return m.By
}

// Pattern fills a place with something that repeats.
type Pattern struct {
	Name  string
	Kind  PatternKind
	Pitch float64 // from one to the next
	Thick float64 // of a line or band; of dots the radius
	Y     float64 // where the first stands
	One   string  // colour of lines and dots, and of what is between bands
	Two   string  // colour of bands
}

// PatternKind says what repeats.
type PatternKind uint8

// The kinds of patterns.
const (
	Lines PatternKind = iota // level lines, four fifths opaque
	Bands                    // at 45 degrees, filling the place with two colours
	Dots
)

// Drawing is a picture.
type Drawing struct {
	Width, Height float64
	Title         string // what it shows, for those who do not see it
	Ground        string // colour of the whole; "" none
	Patterns      []Pattern
	Shapes        []Shape
}

// Add puts shapes over what is drawn.
func (d *Drawing) Add(shapes ...Shape) { d.Shapes = append(d.Shapes, shapes...) }

// Moved returns shapes moved by x and y. Nothing of them has a Move of its own.
func Moved(shapes []Shape, x, y float64) []Shape { return Placed(shapes, Move{x, y, 1}) }

// Placed returns shapes scaled and moved.
func Placed(shapes []Shape, to Move) []Shape {
	out := make([]Shape, len(shapes))
	for i, s := range shapes {
		by := to.scale()
		s.At = Move{to.X + by*s.At.X, to.Y + by*s.At.Y, by * s.At.scale()}
		out[i] = s
	}
	return out
}
