package drawing

import (
	"bytes"
	"math"
	"regexp"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
)

var (
	rootSize  = regexp.MustCompile(`<svg ([^>]*?)width="[^"]*" height="[^"]*" viewBox="0 0 ([0-9.]+) ([0-9.]+)"`)
	textSizes = regexp.MustCompile(`font-size="([0-9.]+)"`)
	tags      = regexp.MustCompile(`<[a-z][^>]*>`)
	paints    = regexp.MustCompile(`(fill|stroke)="(#[0-9a-f]+)"`)
)

// OnScreen makes a drawing ready to stand in a page that has so many px for it. It is shown as
// wide as that, or wider where its smallest text would come out below LeastShown. What is black
// takes the colour of the words around it; what is white or grey has a class that a page can
// colour: fill-f of what is white, fill-d, stroke-9 and so on of greys.
func OnScreen(svg []byte, width int) []byte {
	size := rootSize.FindSubmatch(svg)
	if size == nil {
		return svg
	}
	wide, high := numberOf(size[2]), numberOf(size[3])
	scale := float64(width) / wide
	for _, found := range textSizes.FindAllSubmatch(svg, -1) {
		scale = math.Max(scale, LeastShown/numberOf(found[1]))
	}
	head := `<svg ` + string(size[1]) + `width="` + Coordinate(math.Ceil(wide*scale)) + `" height="` + Coordinate(math.Ceil(high*scale)) +
		`" fill="currentColor" viewBox="0 0 ` + string(size[2]) + ` ` + string(size[3]) + `"`
	return tags.ReplaceAllFunc(bytes.Replace(svg, size[0], []byte(head), 1), painted)
}

// painted gives a tag its classes.
func painted(tag []byte) []byte {
	var classes []string
	tag = paints.ReplaceAllFunc(tag, func(paint []byte) []byte {
		found := paints.FindSubmatch(paint)
		what, shade := string(found[1]), string(found[2])
		if shade == "#000" {
			return []byte(what + `="currentColor"`)
		}
		classes = append(classes, what+"-"+shade[1:2])
		return paint
	})
	if classes == nil {
		return tag
	}
	name, rest, _ := bytes.Cut(tag, []byte(" "))
	return []byte(string(name) + ` class="` + strings.Join(classes, " ") + `" ` + string(rest))
}

// ShownOf is OnScreen of a drawing that is rendered as it is printed.
func ShownOf(printed wire.Rendered, width int) ([]byte, error) {
	text, err := printed.Render(wire.DrawnForm.Name)
	if err != nil {
		return nil, err
	}
	return OnScreen(text, width), nil
}

// numberOf is a number that a drawing wrote.
func numberOf(text []byte) float64 {
	v, _ := strconv.ParseFloat(string(text), 64) // the expression lets only numbers through
	return v
}
