package drawing

import (
	"math"
	"strconv"

	"latewood/woodphys/quantity"
)

// Frame of the pages of a sheet at true scale, in millimetres.
const (
	footer     = 8.0 // below the window of every page
	footerText = 3.0
	overlap    = 10.0 // that neighbours show both
	markArm    = 4.0
	cutLine    = `stroke="#000" stroke-width="0.1" fill="none" stroke-dasharray="2 1.5"`
	markLine   = `stroke="#000" stroke-width="0.15" fill="none"`
	barLine    = `fill="#000" stroke="none"`
)

// Bar is a length to hold a rule against.
type Bar struct {
	Length float64 // in millimetres
	Words  string  // the same for people
}

// Tiled prints a sheet in millimetres at true scale over as many pages as it takes. Each
// page but the last of a row or column is cut along its dashed line and laid on its
// neighbour, which shows the same strip: crosses on the line meet those of the neighbour.
// Every page has the bar.
func Tiled(d *Sheet, paper Paper, bar Bar) ([]byte, error) {
	wide, high := paper.room()
	high -= footer
	columns, rows := tiles(d.Width, wide), tiles(d.Height, high)
	var pages []page
	for row := range rows {
		for column := range columns {
			from := At(float64(column)*(wide-overlap), float64(row)*(high-overlap))
			to := At(math.Min(from.X+wide, d.Width), math.Min(from.Y+high, d.Height))
			t := tile{&Sheet{}, from, to, At(PaperMargin, PaperMargin)}
			if column+1 < columns {
				t.upright(from.X + wide - overlap)
			}
			if column > 0 {
				t.met(At(from.X, from.Y), At(from.X, to.Y))
			}
			if row+1 < rows {
				t.level(from.Y + high - overlap)
			}
			if row > 0 {
				t.met(At(from.X, from.Y), At(to.X, from.Y))
			}
			t.foot(paper, bar, pageOf(len(pages), rows*columns), place(row, column, rows, columns))
			pages = append(pages, page{d, from, to, 1, t.at, t.marks})
		}
	}
	return printed(d.Title, paper, pages)
}

// tiles is how many pages a length takes, each of which overlaps the next.
func tiles(length, room float64) int {
	if length <= room {
		return 1
	}
	return int(math.Ceil((length - overlap) / (room - overlap)))
}

// tile draws the marks of a page over its window.
type tile struct {
	marks    *Sheet
	from, to Point
	at       Point
}

func (t *tile) x(v float64) float64 { return t.at.X + v - t.from.X }
func (t *tile) y(v float64) float64 { return t.at.Y + v - t.from.Y }

// upright is a line to cut along, with crosses a quarter of the way from its ends.
func (t *tile) upright(x float64) {
	t.marks.Line(t.x(x), t.y(t.from.Y), t.x(x), t.y(t.to.Y), cutLine)
	t.met(At(x, t.from.Y), At(x, t.to.Y))
}

func (t *tile) level(y float64) {
	t.marks.Line(t.x(t.from.X), t.y(y), t.x(t.to.X), t.y(y), cutLine)
	t.met(At(t.from.X, y), At(t.to.X, y))
}

// met draws crosses on a line that two pages show: both at the same places of the sheet.
func (t *tile) met(from, to Point) {
	for _, share := range []float64{0.25, 0.75} {
		x, y := t.x(from.X+share*(to.X-from.X)), t.y(from.Y+share*(to.Y-from.Y))
		t.marks.Line(x-markArm, y, x+markArm, y, markLine)
		t.marks.Line(x, y-markArm, x, y+markArm, markLine)
	}
}

// foot writes the bar and which page this is below the window.
func (t *tile) foot(paper Paper, bar Bar, words, where string) {
	y := paper.Height - PaperMargin
	t.marks.Rectangle(PaperMargin, y-2, bar.Length, 2, barLine)
	t.marks.Text(PaperMargin+bar.Length+2, y, footerText, FromLeft, bar.Words)
	if where != "" {
		words += ", " + where
	}
	t.marks.Text(paper.Width-PaperMargin, y-4.2, footerText, FromRight, words)
}

// place says where a page belongs: rows from the top in letters, columns from the left in
// numbers. "" where there is one page.
func place(row, column, rows, columns int) string {
	if rows*columns == 1 {
		return ""
	}
	return "row " + strconv.Itoa(row+1) + " from the top, column " + strconv.Itoa(column+1) + " from the left; cut along " +
		"dashed lines and lay on the neighbour, cross on cross: both show " + quantity.FormatNumber(overlap, 0) + " mm"
}

func pageOf(i, n int) string { return "page " + strconv.Itoa(i+1) + " of " + strconv.Itoa(n) }
