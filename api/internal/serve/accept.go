package serve

import (
	"strconv"
	"strings"
)

// choose picks the media type to answer with from those offered, the preferred
// first, by the Accept header (RFC 9110, 12.5.1). An empty header takes the
// first; "" means that none will do.
func choose(accept string, offers []string) string {
	if strings.TrimSpace(accept) == "" {
		return offers[0]
	}
	best, bestQuality := "", 0.0
	for _, offer := range offers {
		if q := quality(accept, offer); q > bestQuality {
			best, bestQuality = offer, q
		}
	}
	return best
}

// quality is the weight an Accept header gives a media type: that of its most
// specific matching range.
func quality(accept, offer string) float64 {
	major, _, _ := strings.Cut(offer, "/")
	found, specific := 0.0, -1
	for part := range strings.SplitSeq(accept, ",") {
		fields := strings.Split(part, ";")
		media := strings.ToLower(strings.TrimSpace(fields[0]))
		level := -1
		switch media {
		case offer:
			level = 2
		case major + "/*":
			level = 1
		case "*/*":
			level = 0
		}
		if level <= specific {
			continue
		}
		found, specific = weight(fields[1:]), level
	}
	return found
}

func weight(parameters []string) float64 {
	for _, p := range parameters {
		if value, ok := strings.CutPrefix(strings.ToLower(strings.TrimSpace(p)), "q="); ok {
			q, err := strconv.ParseFloat(value, 64)
			if err != nil || !(q >= 0 && q <= 1) {
				return 0
			}
			return q
		}
	}
	return 1
}
