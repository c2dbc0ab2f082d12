package page

import (
	"math"
	"strconv"
)

// A chart is one plot, laid out: percents across, pixels down. The template
// "chart" draws it, and escapes what it says.
type chart struct {
	ID     string // unique in the page
	Class  string
	Title  string // its name for who cannot see it
	Desc   string // what it shows, in a sentence
	Height string
	Shapes []shape
}

// A shape is one mark of a chart. Its places are ready for an attribute:
// percents across ("12.5%"), pixels down ("12.5").
type shape struct {
	Kind         string // rect, line, dot, cross or text
	Class        string
	X, X2, W     string
	Y, Y2, H, R  string
	Text, Anchor string
	Shift        string // of a text, across, in pixels
}

// rect is a bar from x1 to x2 percent, y down, h high.
func (c *chart) rect(class string, x1, x2, y, h float64) {
	c.Shapes = append(c.Shapes, shape{
		Kind: "rect", Class: class, X: percents(min(x1, x2)), W: percents(math.Abs(x2 - x1)), Y: pixels(y), H: pixels(h),
	})
}

func (c *chart) line(class string, x1, y1, x2, y2 float64) {
	c.Shapes = append(c.Shapes, shape{
		Kind: "line", Class: class, X: percents(x1), Y: pixels(y1), X2: percents(x2), Y2: pixels(y2),
	})
}

// dot is a disc of radius r; its class may leave it hollow.
func (c *chart) dot(class string, x, y, r float64) {
	c.Shapes = append(c.Shapes, shape{Kind: "dot", Class: class, X: percents(x), Y: pixels(y), R: pixels(r)})
}

// cross is a small oblique cross.
func (c *chart) cross(class string, x, y float64) {
	c.Shapes = append(c.Shapes, shape{Kind: "cross", Class: class, X: percents(x), Y: pixels(y)})
}

// text stands with its baseline at y. Near an edge of the plot it is set from
// that edge inwards, else centred.
func (c *chart) text(class string, x, y float64, s string) {
	t := shape{Kind: "text", Class: class, X: percents(x), Y: pixels(y), Text: s, Anchor: "middle"}
	switch {
	case x < 8:
		t.Anchor = "start"
	case x > 92:
		t.Anchor = "end"
	}
	c.Shapes = append(c.Shapes, t)
}

// beside is a text next to x, on the side where there is more room.
func (c *chart) beside(class string, x, y float64, s string) {
	t := shape{Kind: "text", Class: class, X: percents(x), Y: pixels(y), Text: s, Anchor: "start", Shift: "5"}
	if x > 50 {
		t.Anchor, t.Shift = "end", "-5"
	}
	c.Shapes = append(c.Shapes, t)
}

func percents(v float64) string { return pixels(v) + "%" }

// pixels is a place at a hundredth, which no eye tells apart and which hides
// what platforms may differ by.
func pixels(v float64) string {
	return strconv.FormatFloat(math.Round(v*100)/100+0, 'f', -1, 64)
}
