package drawing

import "math"

// Column lays a drawing out for a screen: what it tells stands one below the other over the
// whole width, however narrow that is, and the sheet grows as high as that takes.
type Column struct {
	*Sheet
	On Frame
	Y  float64 // base of the last line, or foot of what was drawn last
}

// columnSide is what stays free at either side of a column, in px.
const columnSide = 10.0

// figuresWide is how far from its name a figure stands at most, in px.
const figuresWide = 460.0

// ColumnOf begins a column for a screen that has so many px for it.
func ColumnOf(width int, title, about string) *Column {
	f := FrameOf(width)
	f.Left, f.Right = columnSide, f.Width-columnSide
	return &Column{Sheet: &Sheet{Width: f.Width, Title: title, About: about}, On: f, Y: 4}
}

// Words writes words in as many lines as they take.
func (c *Column) Words(size float64, words string) {
	for _, line := range Broken(words, size, c.On.Room()) {
		c.Y += 1.35 * size
		c.Text(c.On.Left, c.Y, size, FromLeft, line)
	}
}

// Notes writes remarks in small text, below a line.
func (c *Column) Notes(notes ...string) {
	c.Y += 10
	c.Line(c.On.Left, c.Y, c.On.Right, c.Y, Thin)
	c.Y += 4
	for _, note := range notes {
		c.Words(c.On.Small, note)
		c.Y += 3
	}
}

// Figures lists names and figures, each figure on the line of its name where both find room.
func (c *Column) Figures(rows [][2]string) {
	right := math.Min(c.On.Right, c.On.Left+figuresWide)
	for _, row := range rows {
		c.Y += 4
		names := Broken(row[0], c.On.Small, right-c.On.Left)
		for _, line := range names {
			c.Y += c.On.Small + 3
			c.Text(c.On.Left, c.Y, c.On.Small, FromLeft, line)
		}
		free := right - c.On.Left - TextWidth(names[len(names)-1], c.On.Small) - 12
		for i, line := range Broken(row[1], c.On.Small, right-c.On.Left) {
			if i > 0 || TextWidth(row[1], c.On.Small) > free {
				c.Y += c.On.Small + 3
			}
			c.Text(right, c.Y, c.On.Small, FromRight, line)
		}
		c.Line(c.On.Left, c.Y+4, right, c.Y+4, Faint)
	}
}

// Explain begins the legend of what stands above, and Explained ends it.
func (c *Column) Explain() *Legend { return c.On.LegendAt(c.Sheet, c.Y+20) }

// Explained goes on below a legend.
func (c *Column) Explained(l *Legend) { c.Y = l.Y + 4 }

// Shown is the drawing as it stands in a page.
func (c *Column) Shown() []byte {
	c.Grown(c.Y + 12)
	return OnScreen(c.SVG())
}
