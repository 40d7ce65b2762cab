package drawing

import (
	"bytes"
	"regexp"
	"strings"
)

var (
	tags   = regexp.MustCompile(`<[a-z][^>]*>`)
	paints = regexp.MustCompile(`(fill|stroke)="(#[0-9a-f]+)"`)
)

// OnScreen makes a drawing that was laid out for a screen ready to stand in a page. What is black
// takes the colour of the words around it; what is white or grey has a class that a page can
// colour: fill-f of what is white, fill-d, stroke-9 and so on of greys.
func OnScreen(svg []byte) []byte {
	svg = bytes.Replace(svg, []byte(` viewBox="`), []byte(` fill="currentColor" viewBox="`), 1)
	return tags.ReplaceAllFunc(svg, painted)
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
