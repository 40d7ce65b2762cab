package species

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// longestQuery is how much of a query is looked at, in bytes; the longest name
// has about 60.
const longestQuery = 120

// letters that do not come apart into a letter and an accent
var plainLetters = strings.NewReplacer("ø", "o", "æ", "ae", "œ", "oe", "ß", "ss", "ł", "l", "đ", "d", "ı", "i")

// fold returns text for comparison: lower case, without accents and
// apostrophes, everything else that is neither letter nor digit a single space.
func fold(text string) string {
	if len(text) > longestQuery {
		text = strings.ToValidUTF8(text[:longestQuery], "")
	}
	text = strings.ToLower(text)
	if strings.IndexFunc(text, func(r rune) bool { return r > unicode.MaxASCII }) < 0 {
		return foldASCII(text)
	}
	text = norm.NFD.String(plainLetters.Replace(text))
	var b strings.Builder
	b.Grow(len(text))
	gap := false
	for _, r := range text {
		switch {
		case unicode.Is(unicode.Mn, r) || r == '\'' || r == '’':
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			if gap && b.Len() > 0 {
				b.WriteByte(' ')
			}
			gap = false
			b.WriteRune(r)
		default:
			gap = true
		}
	}
	return b.String()
}

// foldASCII is fold for lower case without accents, which most names are.
func foldASCII(text string) string {
	out := make([]byte, 0, len(text))
	gap := false
	for i := range len(text) {
		switch c := text[i]; {
		case c >= 'a' && c <= 'z' || c >= '0' && c <= '9':
			if gap && len(out) > 0 {
				out = append(out, ' ')
			}
			gap = false
			out = append(out, c)
		case c != '\'':
			gap = true
		}
	}
	return string(out)
}

// sortedWords returns the words of a folded text in alphabetical order, so that
// "maple sugar" and "sugar maple" are equal.
func sortedWords(folded string) string {
	words := strings.Fields(folded)
	slices.Sort(words)
	return strings.Join(words, " ")
}

// joined returns a folded text without spaces: "red cedar" and "redcedar" are
// equal.
func joined(folded string) string { return strings.ReplaceAll(folded, " ", "") }
