package drawing

import (
	"math"
	"slices"
	"strings"
)

// serifWidths are the advance widths of the printable ASCII characters, from the
// space on, in thousandths of the size.
// Source: hmtx table of DejaVu Serif, the wider of the two faces drawings ask for
// (1000 units for its 2048, rounded).
var serifWidths = [...]int{
	318, 402, 460, 838, 636, 950, 890, 275, 390, 390, 500, 838, 318, 338, 318, 337,
	636, 636, 636, 636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 536,
	1000, 722, 735, 765, 802, 730, 694, 799, 872, 395, 401, 747, 664, 1024, 875, 820,
	673, 820, 753, 685, 667, 843, 722, 1028, 712, 660, 695, 390, 337, 390, 838, 500,
	500, 596, 640, 560, 640, 592, 370, 640, 644, 320, 310, 606, 320, 948, 644, 602,
	640, 640, 478, 513, 402, 644, 565, 856, 564, 565, 527, 636, 337, 636, 838,
}

// TextWidth is how wide a line of a drawing comes out, in the units of its size.
// Characters that are not ASCII count as wide as they are high.
func TextWidth(words string, size float64) float64 {
	thousandths := 0
	for _, c := range words {
		if n := int(c) - ' '; n >= 0 && n < len(serifWidths) {
			thousandths += serifWidths[n]
		} else {
			thousandths += 1000
		}
	}
	return size * float64(thousandths) / 1000
}

// Words that a number is not parted from: those before it and those after it.
var (
	beforeNumber = []string{"face", "leaf", "leaves", "set", "sets", "layer", "worth", "to", "x", "at", "in"}
	afterNumber  = []string{"to", "mm", "m", "in", "ft", "kg", "lb", "g", "C", "F", "K", "%", "percent", "degrees", "day", "days", "cut", "cuts", "set", "sets", "times", "MPa", "psi"}
)

// together says whether a line may not be broken between two words: a number and
// its unit, a number and what it counts.
func together(a, b string) bool {
	number := func(word string) bool {
		word = strings.Trim(word, "(+-.,;:)")
		return word != "" && word[0] >= '0' && word[0] <= '9'
	}
	bare := strings.TrimRight(b, ".,;:)")
	// A number that ends a clause has no unit after it.
	if number(a) && number(b) && strings.Contains(b, "/") { // 2 1/16
		return true
	}
	return number(a) && !strings.ContainsAny(a[len(a)-1:], ",;:") && slices.Contains(afterNumber, bare) || number(b) && slices.Contains(beforeNumber, a)
}

// Wrapped breaks words into lines no wider than width. Numbers stay with their
// units, and the last word is never alone on a line where two fit.
func Wrapped(words string, size, width float64) []string {
	all := strings.Fields(words)
	var pieces []string
	for i := 0; i < len(all); {
		piece := all[i]
		for i++; i < len(all); i++ {
			longer := piece + " " + all[i]
			if !together(all[i-1], all[i]) && (i < len(all)-1 || len(all) < 3) || TextWidth(longer, size) > width {
				break
			}
			piece = longer
		}
		pieces = append(pieces, piece)
	}
	var lines []string
	line := ""
	for _, piece := range pieces {
		longer := strings.TrimSpace(line + " " + piece)
		if line != "" && TextWidth(longer, size) > width {
			lines = append(lines, line)
			longer = piece
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// Spread moves places that rise, so that neighbours are at least pitch apart, none
// lies above top and, where there is room, none below bottom.
func Spread(places []float64, pitch, top, bottom float64) []float64 {
	out := slices.Clone(places)
	bottom = math.Max(bottom, top+pitch*float64(len(out)-1))
	for i := range out {
		out[i] = math.Max(out[i], top)
		if i > 0 {
			out[i] = math.Max(out[i], out[i-1]+pitch)
		}
	}
	for i := len(out) - 1; i >= 0 && out[i] > bottom; i-- {
		out[i] = bottom
		bottom -= pitch
	}
	return out
}

// Shortened cuts words until they fit.
func Shortened(words string, size, width float64) string {
	runes := []rune(words)
	if TextWidth(words, size) <= width {
		return words
	}
	for len(runes) > 1 && TextWidth(string(runes)+".", size) > width {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "."
}

// Broken is Wrapped where nothing may stand out of the width: a word wider than a line is
// broken as well.
func Broken(words string, size, width float64) []string {
	var lines []string
	for _, line := range Wrapped(words, size, width) {
		for TextWidth(line, size) > width {
			letters := []rune(line)
			n := 1
			for n < len(letters) && TextWidth(string(letters[:n+1]), size) <= width {
				n++
			}
			if n == len(letters) { // one letter wider than a line
				break
			}
			lines, line = append(lines, string(letters[:n])), string(letters[n:])
		}
		lines = append(lines, line)
	}
	return lines
}

// Lines are words in lines no wider than width. On paper a word that is wider stands out.
func Lines(screen bool, words string, size, width float64) []string {
	if screen {
		return Broken(words, size, width)
	}
	return Wrapped(words, size, width)
}

// Box is the room that a text takes at most.
type Box struct{ Left, Top, Right, Bottom float64 }

// TextBox is the room of a line about its point: from the top of capitals to the foot of
// descenders of the usual faces with serifs.
func TextBox(x, y, size float64, anchor, words string) Box {
	wide := TextWidth(words, size)
	switch anchor {
	case Centred:
		x -= wide / 2
	case FromRight:
		x -= wide
	}
	return Box{x, y - textAbove*size, x + wide, y + textBelow*size}
}

// UprightBox is that of a line that reads from bottom to top.
func UprightBox(x, y, size float64, words string) Box {
	wide := TextWidth(words, size)
	return Box{x - textAbove*size, y - wide/2, x + textBelow*size, y + wide/2}
}

// How far letters reach from the line they stand on, as shares of their size.
const textAbove, textBelow = 0.8, 0.22

// Meets reports whether two boxes overlap.
func (b Box) Meets(other Box) bool {
	return b.Left < other.Right && other.Left < b.Right && b.Top < other.Bottom && other.Top < b.Bottom
}

// Taken are the places where labels stand already.
type Taken []Box

// Take takes a place for a label, unless another stands there.
func (t *Taken) Take(b Box) bool {
	if slices.ContainsFunc(*t, b.Meets) {
		return false
	}
	*t = append(*t, b)
	return true
}
