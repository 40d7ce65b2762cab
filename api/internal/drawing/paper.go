package drawing

import "math"

// Paper is a size of paper, upright, in millimetres.
type Paper struct {
	Name          string
	Width, Height float64
}

// Papers that drawings are printed on.
// Source: ISO 216 for A4; ASME Y14.1 for Letter, 8 1/2 x 11 in.
var (
	A4     = Paper{"a4", 210, 297}
	Letter = Paper{"letter", 215.9, 279.4}
)

// PaperMargin is what stays white round every page, in millimetres: printers leave up to
// some 6 mm (common practice, no source).
const PaperMargin = 12.0

// room is the width and the height of a page within its margins.
func (p Paper) room() (width, height float64) {
	return p.Width - 2*PaperMargin, p.Height - 2*PaperMargin
}

// page is what of a sheet one page shows, and where: a window of the sheet in its own
// units, drawn at a scale with its corner at a place of the paper. Marks are drawn over it,
// in millimetres of the paper.
type page struct {
	sheet    *Sheet
	from, to Point // corners of the window
	scale    float64
	at       Point
	marks    *Sheet
}

// Flowed prints a sheet that runs down over as many pages as it takes, its width that of
// the paper between the margins. A page ends where MayBreak allows it.
func Flowed(d *Sheet, paper Paper) ([]byte, error) {
	wide, high := paper.room()
	scale := wide / d.Width
	most := (high - footer) / scale
	cuts := []float64{0}
	for from := 0.0; from+most < d.Height; {
		from = d.breakBefore(from, from+most)
		cuts = append(cuts, from)
	}
	var pages []page
	for i, from := range cuts {
		to := d.Height
		if i+1 < len(cuts) {
			to = cuts[i+1]
		}
		marks := &Sheet{}
		marks.Text(paper.Width-PaperMargin, paper.Height-PaperMargin, footerText, FromRight, pageOf(i, len(cuts)))
		pages = append(pages, page{d, At(0, from), At(d.Width, to), scale, At(PaperMargin, PaperMargin), marks})
	}
	return printed(d.Title, paper, pages)
}

// breakBefore is the last place from and to between which a page may end; to where there is
// none.
func (d *Sheet) breakBefore(from, to float64) float64 {
	best := math.Inf(-1)
	for _, y := range d.breaks {
		if y > from && y <= to {
			best = math.Max(best, y)
		}
	}
	if math.IsInf(best, -1) {
		return to
	}
	return best
}

// Singly prints sheets in millimetres, each as large as the paper, on a page each.
func Singly(title string, sheets []*Sheet, paper Paper) ([]byte, error) {
	var pages []page
	for _, d := range sheets {
		pages = append(pages, page{d, At(0, 0), At(paper.Width, paper.Height), 1, At(0, 0), nil})
	}
	return printed(title, paper, pages)
}
