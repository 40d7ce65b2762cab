package wire

import "latewood/woodphys/method"

// AtMembers are the notes of a chapter with their warnings pointed at the members of a
// request as point does it with the errors of that chapter.
func AtMembers(notes method.Notes, point func(error) error) method.Notes {
	return notes.Each(func(input string) string {
		if moved, is := AsDomain(point(&method.Error{Input: input})); is {
			return moved.Input
		}
		return input
	})
}

// FromTop are the notes with the inputs of their warnings called from the top of the
// request, so that nothing that calls them as those of a place moves them.
func FromTop(notes method.Notes) method.Notes {
	return notes.Each(func(input string) string { return "/" + trimSlash(input) })
}
