package drawing

import "math"

// Frame is where a chart stands on its sheet, and how large its text is. That of the zero
// value is not to be used: take Printed or FrameOf.
type Frame struct {
	Width, Left, Right, Top, Bottom float64
	Heading, Body, Small            float64 // sizes of text
	shown                           bool    // on a screen: words run on over as many lines as they take
}

// Printed is the frame of a chart on paper.
var Printed = Frame{Width: ChartWidth, Left: ChartLeft, Right: ChartRight, Top: ChartTop, Bottom: ChartBottom,
	Heading: 15, Body: BodyText, Small: SmallText}

// LeastShown is the size of the smallest text of a drawing on a screen, in px.
const LeastShown = 11.0

// FrameOf is the frame of a chart that is as wide as there is room for it on a screen, in px;
// that of paper for 0.
func FrameOf(width int) Frame {
	if width == 0 {
		return Printed
	}
	const left, right, high = 46, 12, 280
	return Frame{Width: float64(width), Left: left, Right: float64(width) - right, Top: ChartTop, Bottom: ChartTop + high,
		Heading: 15, Body: 12.5, Small: LeastShown, shown: true}
}

// IsShown reports whether the frame is that of a screen.
func (f *Frame) IsShown() bool { return f.shown }

// axis is where the name of the upright axis stands.
func (f *Frame) axis() float64 {
	if f.shown {
		return 13
	}
	return 18
}

// Room is how wide the chart is between its sides.
func (f *Frame) Room() float64 { return f.Right - f.Left }

// Under writes the heading and the finding in as many lines as they take, and moves the chart
// below them.
func (f *Frame) Under(d *Sheet, heading, finding string) {
	const left = 8
	y := 0.0
	for _, part := range []struct {
		words string
		size  float64
	}{{heading, f.Heading}, {finding, f.Body}} {
		for _, line := range Lines(f.shown, part.words, part.size, f.Right-left) {
			y += part.size + 5
			d.Text(left, y, part.size, FromLeft, line)
		}
	}
	high := f.Bottom - f.Top
	f.Top = y + f.Small + 16 // the names of the places stand between
	f.Bottom = f.Top + high
}

// Notes writes remarks below one another and returns where the next line would stand.
func (f *Frame) Notes(d *Sheet, y float64, notes []string) float64 {
	for _, note := range notes {
		for _, line := range Lines(f.shown, note, f.Small, f.Room()) {
			d.Text(f.Left, y, f.Small, FromLeft, line)
			y += f.Small + 3
		}
	}
	return y
}

// Legend explains lines, in one row on paper and in as many as it takes on a screen.
type Legend struct {
	d     *Sheet
	frame *Frame
	x, Y  float64
}

// LegendAt begins a legend with its first row at y.
func (f *Frame) LegendAt(d *Sheet, y float64) *Legend { return &Legend{d, f, f.Left, y} }

// sampleWide is how wide a sample of a line is, with the space behind it.
const sampleWide = 29.0

// Entry adds what a sample means; sample draws it from x on, 24 wide, on the line of the words.
func (l *Legend) Entry(words string, sample func(x, y float64)) {
	wide := TextWidth(words, l.frame.Small)
	if l.frame.shown && l.x > l.frame.Left && l.x+sampleWide+wide > l.frame.Right {
		l.x, l.Y = l.frame.Left, l.Y+l.frame.Small+6
	}
	sample(l.x, l.Y)
	lines := []string{words}
	if l.frame.shown {
		lines = Broken(words, l.frame.Small, l.frame.Right-l.x-sampleWide)
	}
	for i, line := range lines {
		if i > 0 {
			l.Y += l.frame.Small + 2
		}
		l.d.Text(l.x+sampleWide, l.Y, l.frame.Small, FromLeft, line)
	}
	if len(lines) > 1 {
		wide = math.Inf(1) // nothing stands beside what took several lines
	}
	l.x += sampleWide + wide + 12
}

// Styled is an entry whose sample is a line.
func (l *Legend) Styled(style, words string) {
	l.Entry(words, func(x, y float64) { l.d.Line(x, y-3.5, x+24, y-3.5, style) })
}

// Shaded is an entry whose sample is a band.
func (l *Legend) Shaded(words string) {
	l.Entry(words, func(x, y float64) { l.d.Rectangle(x, y-8, 24, 9, Band) })
}
