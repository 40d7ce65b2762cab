package quantity

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// perSquareMillimetre ends the one unit whose last sign is a digit.
const perSquareMillimetre = "/mm2"

// plainer writes the signs of keyboards and phones as the plain ones; a fraction of one
// sign gets a space before it, which a whole number may need.
var plainer = strings.NewReplacer(
	"½", " 1/2", "⅓", " 1/3", "⅔", " 2/3", "¼", " 1/4", "¾", " 3/4",
	"⅕", " 1/5", "⅖", " 2/5", "⅗", " 3/5", "⅘", " 4/5", "⅙", " 1/6", "⅚", " 5/6",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⁄", "/", "’", "'", "′", "'", "‘", "'", "”", `"`, "″", `"`, "“", `"`, "''", `"`,
	"−", "-", "–", "-", "\u00a0", " ", "\u2009", " ", "\u202f", " ",
)

func parse(d Dimension, text string) (float64, error) {
	fail := func(reason string) (float64, error) {
		return 0, &ParseError{Text: text, Dimension: d, Reason: reason, Units: Units(d)}
	}
	if len(text) > maxText {
		text = text[:maxText]
		return fail("longer than " + strconv.Itoa(maxText) + " characters")
	}
	plain := strings.TrimSpace(plainer.Replace(text))
	if plain == "" {
		return fail("empty")
	}
	si, _, reason := parseWritten(d, plain)
	switch {
	case reason != "":
		return fail(reason)
	case math.IsInf(si, 0):
		return fail("the value is too large")
	}
	return si, nil
}

// UnitWritten returns the symbol of the unit, of dimension d, that text is written in: "in"
// for `3"` and 8/4, the larger one of two that stand together; "" for a text that is no
// such quantity.
func UnitWritten(d Dimension, text string) string {
	_, unit, _ := parseWritten(d, strings.TrimSpace(plainer.Replace(text)))
	return unit
}

// parseWritten reads a quarter thickness, two units together or a number with its unit.
// A reason other than "" says why it could not.
func parseWritten(d Dimension, plain string) (si float64, symbol, reason string) {
	if d == DimensionLength && inQuarters.MatchString(plain) {
		quarters, reason := parseNumber(plain)
		return quarters * float64(Inch), "in", reason
	}
	if pair, is := pairs[d]; is {
		if found := pair.form.FindStringSubmatch(plain); found != nil {
			si, reason := pair.read(d, found)
			return si, pair.unit, reason
		}
	}
	whole := strings.TrimSuffix(plain, perSquareMillimetre)
	split := strings.LastIndexAny(whole, "0123456789.") + 1
	number, symbol := strings.TrimSpace(plain[:split]), strings.TrimSpace(plain[split:])
	if number == "" {
		return 0, "", "no number in it"
	}
	if symbol == "" {
		unit := Units(d)[0]
		if d == DimensionLength && strings.Contains(number, "/") {
			unit = "in" // nobody writes halves of millimetres so
		}
		return 0, "", `the unit is missing, write for example "` + number + " " + unit + `"`
	}
	u, ok := lookUp(d, symbol)
	if !ok {
		return 0, "", strconv.Quote(symbol) + " is not a unit of " + string(d)
	}
	value, reason := parseNumber(number)
	return u.toSI(value), u.symbol, reason
}

// inQuarters is a thickness of sawn timber in quarters of an inch: 4/4, 5/4, 8/4
// (common practice, no source). Below 4/4 it may be any fraction, and has to have a unit.
var inQuarters = regexp.MustCompile(`^([4-9]|[12][0-9])/4$`)

// pair is two units that are written together.
type pair struct {
	form        *regexp.Regexp // sign, number of the first, number of the second
	unit, small string
	many        float64 // of the second in one of the first
}

var pairs = map[Dimension]pair{
	DimensionLength: {regexp.MustCompile(`^(?i)([+-]?)\s*(.+?)\s*(?:feet|foot|ft|')[\s-]*(?:(.+?)\s*(?:inches|inch|in|"|)?)$`), "ft", "in", 12},
	DimensionMass:   {regexp.MustCompile(`^(?i)([+-]?)\s*(.+?)\s*(?:pounds|pound|lbs|lb)\s*(.+?)\s*(?:ounces|ounce|oz)$`), "lb", "oz", 16},
}

func (p pair) read(d Dimension, found []string) (si float64, reason string) {
	first, reason := parseNumber(found[2])
	if reason != "" {
		return 0, reason
	}
	second, reason := parseNumber(found[3])
	switch {
	case reason != "":
		return 0, reason
	case first < 0 || second < 0:
		return 0, strconv.Quote(found[0]) + " is not a number"
	case second >= p.many:
		return 0, p.small + " behind " + p.unit + " are fewer than " + strconv.Itoa(int(p.many))
	}
	u, _ := lookUp(d, p.unit)
	value := first + second/p.many
	if found[1] == "-" {
		value = -value
	}
	return u.toSI(value), ""
}

// parseNumber reads a decimal ("52", "-4.5", "11,10", "1,234.5", "1e3"), a fraction ("7/8")
// or a whole number and a fraction ("2 1/16", "2-1/16"). A reason other than "" says why it
// could not.
func parseNumber(text string) (value float64, reason string) {
	text = strings.TrimSpace(text)
	slash := strings.IndexByte(text, '/')
	if slash < 0 {
		return parseDecimal(text)
	}
	head := strings.TrimSpace(text[:slash])
	sign := 1.0
	switch {
	case strings.HasPrefix(head, "-"):
		sign, head = -1, strings.TrimSpace(head[1:])
	case strings.HasPrefix(head, "+"):
		head = strings.TrimSpace(head[1:])
	}
	whole := 0.0
	if gap := strings.IndexAny(head, " -"); gap >= 0 {
		w, ok := parseWhole(head[:gap])
		if !ok {
			return 0, "before a fraction stands a whole number, as in 2 1/16"
		}
		whole, head = w, strings.TrimSpace(head[gap+1:])
	}
	top, okTop := parseWhole(head)
	bottom, okBottom := parseWhole(strings.TrimSpace(text[slash+1:]))
	switch {
	case !okTop || !okBottom:
		return 0, "a fraction is two whole numbers, as in 2 1/16"
	case bottom == 0:
		return 0, "a fraction cannot have 0 below the line"
	}
	return sign * (whole + top/bottom), ""
}

// Forms of numbers with commas, their sign taken off.
var (
	twoReadings   = regexp.MustCompile(`^[1-9][0-9]{0,2},[0-9]{3}$`)
	commaGroups   = regexp.MustCompile(`^[0-9]{1,3}(,[0-9]{3})+\.[0-9]*$|^[0-9]{1,3}(,[0-9]{3}){2,}$`)
	pointGroups   = regexp.MustCompile(`^[0-9]{1,3}(\.[0-9]{3})+,[0-9]+$`)
	decimalCommas = regexp.MustCompile(`^[0-9]*,[0-9]+$`)
)

// withPoint writes a number with commas as one with a decimal point, where that can be
// told; a comma before three digits may mean either, and both readings are named.
func withPoint(text string) (decimal, reason string) {
	bare := strings.TrimLeft(text, "+-")
	if len(text)-len(bare) > 1 {
		return text, ""
	}
	switch {
	case twoReadings.MatchString(bare):
		return "", text + " may be " + strings.Replace(text, ",", "", 1) + " or " + strings.Replace(text, ",", ".", 1) +
			": write it one of these ways"
	case commaGroups.MatchString(bare):
		return strings.ReplaceAll(text, ",", ""), ""
	case pointGroups.MatchString(bare):
		return strings.Replace(strings.ReplaceAll(text, ".", ""), ",", ".", 1), ""
	case decimalCommas.MatchString(bare):
		return strings.Replace(text, ",", ".", 1), ""
	}
	return text, ""
}

func parseDecimal(text string) (value float64, reason string) {
	decimal := text
	if strings.Contains(text, ",") {
		if decimal, reason = withPoint(text); reason != "" {
			return 0, reason
		}
	}
	for _, c := range decimal {
		if !strings.ContainsRune("0123456789.+-eE", c) {
			return 0, strconv.Quote(text) + " is not a number"
		}
	}
	value, err := strconv.ParseFloat(decimal, 64)
	switch {
	case err != nil && math.IsInf(value, 0):
		return 0, "the value is too large"
	case err != nil:
		return 0, strconv.Quote(text) + " is not a number"
	}
	return value, ""
}

func parseWhole(text string) (float64, bool) {
	if text == "" || len(text) > 9 {
		return 0, false
	}
	n := 0.0
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return 0, false
		}
		n = n*10 + float64(text[i]-'0')
	}
	return n, true
}
