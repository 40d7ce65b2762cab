package method

import (
	"slices"
	"strings"
)

// Each returns the notes with the inputs that their warnings name called anew; what names
// no input stays as it is.
//
// Source: none needed.
func (n Notes) Each(anew func(input string) string) Notes {
	out := Notes{Basis: n.Basis}
	for _, w := range n.Warnings {
		if w.Input != "" {
			w.Input = anew(w.Input)
		}
		out.Warn(w)
	}
	return out
}

// Renamed returns the notes with the inputs of their warnings called as Renamed calls those
// of errors.
//
// Source: none needed.
func (n Notes) Renamed(names ...[2]string) Notes {
	return n.Each(func(input string) string { return renamed(input, names) })
}

// Below returns the notes with the inputs of their warnings called as those of a place,
// such as layers/2, as Below does with those of errors; one that begins with a slash is
// already called from the top.
//
// Source: none needed.
func (n Notes) Below(place string) Notes {
	return n.Each(func(input string) string { return below(place, input) })
}

func below(place, input string) string {
	if strings.HasPrefix(input, "/") {
		return input
	}
	return place + "/" + input
}

// Without returns the notes without the warnings that were told before.
//
// Source: none needed.
func (n Notes) Without(told Notes) Notes {
	out := Notes{Basis: n.Basis}
	for _, w := range n.Warnings {
		if !slices.Contains(told.Warnings, w) {
			out.Warn(w)
		}
	}
	return out
}

// CallFrom calls the inputs of the warnings from number first on anew; it is for notes that
// several steps add to, each with names of its own.
//
// Source: none needed.
func (n *Notes) CallFrom(first int, anew func(input string) string) {
	if first >= len(n.Warnings) {
		return
	}
	added := Notes{Warnings: n.Warnings[first:]}.Each(anew)
	n.Warnings = n.Warnings[:first:first]
	n.Merge(added)
}

// Place calls the inputs of the warnings from number first on as Below does.
//
// Source: none needed.
func (n *Notes) Place(first int, place string) {
	n.CallFrom(first, func(input string) string { return below(place, input) })
}

// RenameFrom calls the inputs of the warnings from number first on as Renamed does.
//
// Source: none needed.
func (n *Notes) RenameFrom(first int, names ...[2]string) {
	n.CallFrom(first, func(input string) string { return renamed(input, names) })
}
